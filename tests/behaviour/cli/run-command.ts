import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll } from "vitest";

/** The built command, as a user calls it; `npm test` builds it first. */
export const main = fileURLToPath(new URL("../../../dist/cli/main.js", import.meta.url));

/** Runs the command in a folder. */
export function command(folder: string, ...words: readonly string[]) {
  const { status, stdout, stderr } = spawnSync(process.execPath, [main, ...words], {
    cwd: folder,
    encoding: "utf8",
  });
  return { code: status, stdout, stderr };
}

const folders: string[] = [];

/** A folder that is removed after the tests, holding the files given. */
export function folderWith(files: Readonly<Record<string, string | Uint8Array>>): string {
  const folder = mkdtempSync(join(tmpdir(), "pulley-outcomes-"));
  folders.push(folder);
  for (const [path, content] of Object.entries(files)) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), content);
  }
  return folder;
}

/** Every file below a folder, in order. */
export const filesIn = (folder: string): string[] =>
  readdirSync(folder, { recursive: true, encoding: "utf8" }).sort();

afterAll(() => {
  for (const folder of folders) rmSync(folder, { recursive: true, force: true });
});

/** A small, sound single sheet and its study file. */
export const soundSheet = `person,injury_date,hand,finger,pulleys,grade,treatment,treatment_start,full,last_contact
P01,2024-03-04,left,ring,A3,2,ring,2024-03-06,2024-06-03,2024-11-18
P02,2024-03-20,right,middle,A4,2,tape,2024-03-21,2024-05-22,2024-09-02
P03,2024-04-11,right,ring,A4,2,ring,2024-04-15,,2024-10-01
P04,2024-04-20,left,middle,A3,2,tape,2024-04-22,2024-07-10,2024-12-01
`;
export const soundStudy = `study: small-audit
title: A small audit
data:
  single_sheet: sheet.csv
`;
