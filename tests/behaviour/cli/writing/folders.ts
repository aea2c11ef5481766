import { mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fingerprintOf } from "../../../../src/cli/machine.js";
import type { OutputFile } from "../../../../src/cli/writing/index.js";

export { temporaryFolder as newFolder } from "../../../temporary-folders.js";

/** Every file below a folder with its text, folders that are empty with null. */
export function everythingIn(folder: string): Record<string, string | null> {
  const found: [string, string | null][] = [];
  for (const entry of readdirSync(folder, { recursive: true, withFileTypes: true })) {
    const full = join(entry.parentPath, entry.name);
    const path = full.slice(folder.length + 1);
    if (entry.isFile()) found.push([path, readFileSync(full, "utf8")]);
    else if (entry.isDirectory() && readdirSync(full).length === 0) found.push([path, null]);
  }
  return Object.fromEntries(found.sort(([one], [other]) => (one < other ? -1 : 1)));
}

/** The manifest of a folder of ours: of a report, a shared copy or a deposit. */
export function manifestOf(kind: string, files: readonly OutputFile[]): OutputFile {
  const outputs = files.map(({ path, content }) => fingerprintOf(path, content));
  const manifest = {
    format: `pulley-outcomes ${kind} 1`,
    toolkit_version: "0.1.0",
    synthetic: true,
    outputs,
  };
  return { path: "manifest.json", content: JSON.stringify(manifest) };
}

/** The files of a folder of ours, with their manifest. */
export function ourFiles(word: string): readonly OutputFile[] {
  const files = [
    { path: "report.html", content: `<p>${word}</p>` },
    { path: `tables/${word}.csv`, content: `${word},1\n` },
  ];
  return [...files, manifestOf("manifest", files)];
}

/** What `everythingIn` gives for files below a name. */
export const asFound = (name: string, files: readonly OutputFile[]): Record<string, string> =>
  Object.fromEntries(files.map(({ path, content }) => [`${name}/${path}`, String(content)]));

export function put(folder: string, files: readonly OutputFile[]): void {
  for (const { path, content } of files) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), content);
  }
}
