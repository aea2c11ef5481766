import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

const folders: string[] = [];

/** An empty folder that is removed after the tests of the file (tests/remove-folders.ts). */
export function temporaryFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), "pulley-outcomes-test-"));
  folders.push(folder);
  return folder;
}

export function removeTemporaryFolders(): void {
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true });
}
