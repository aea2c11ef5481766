import { lstat, readFile } from "node:fs/promises";
import { kindOf } from "./kind-of.js";
import { fingerprintOf } from "./machine.js";
import { type OutputFile, walk } from "./writing/index.js";

/** What differs below the folder: everything in it is looked at, and only files of the right size are read. */
export async function outputLines(
  folder: string,
  expected: ReadonlyMap<string, OutputFile>,
): Promise<string[]> {
  const lines: string[] = [];
  const seen = new Set<string>();
  for await (const { path, full, entry } of walk(folder)) {
    const wanted = expected.get(path);
    const isAbove = entry.isDirectory() && [...expected.keys()].some((each) => each.startsWith(`${path}/`));
    if (isAbove) continue;
    seen.add(path);
    if (wanted === undefined) lines.push(`${path} does not belong to the report`);
    else if (!entry.isFile()) lines.push(`${path} is ${kindOf(entry)}, not a file of the report`);
    else if (!(await hasContent(full, wanted))) lines.push(`${path} differs`);
  }
  const missing = [...expected.keys()].filter((path) => !seen.has(path));
  return [...lines.sort(), ...missing.sort().map((path) => `${path} is missing`)];
}

async function hasContent(path: string, { content }: OutputFile): Promise<boolean> {
  const wanted = fingerprintOf(path, content);
  if ((await lstat(path)).size !== wanted.bytes) return false;
  return fingerprintOf(path, await readFile(path)).sha256 === wanted.sha256;
}
