import { mkdirSync, readdirSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { temporaryFolder } from "../../temporary-folders.js";
import { testedModule } from "../../tested-module.js";

/** The built command, for tests of what a process of its own does; `npm test` builds it first. */
export const main = fileURLToPath(new URL("../../../dist/command/main.js", import.meta.url));

/** What a command left behind. */
export interface Said {
  readonly code: typeof process.exitCode;
  readonly stdout: string;
  readonly stderr: string;
}

let runs = 0;

/**
 * Runs the command in a folder, in this process: a process of its own for each would take most of the time of all tests.
 * The entrance is imported anew each time, so that it reads its arguments as a process that has just started would.
 */
export async function command(folder: string, ...words: readonly string[]): Promise<Said> {
  const before = { argv: process.argv, exitCode: process.exitCode, cwd: process.cwd() };
  const [out, error] = [heard(process.stdout), heard(process.stderr)];
  try {
    process.argv = [process.execPath, main, ...words];
    process.exitCode = undefined;
    process.chdir(folder);
    runs += 1;
    await testedModule(`cli/main.ts?run=${runs}`);
    return { code: process.exitCode ?? 0, stdout: out.text(), stderr: error.text() };
  } finally {
    out.stop();
    error.stop();
    process.chdir(before.cwd);
    Object.assign(process, { argv: before.argv, exitCode: before.exitCode });
  }
}

/** Keeps what is written to a stream of this process, which is no terminal meanwhile. */
function heard(stream: NodeJS.WriteStream) {
  const { write, isTTY } = stream;
  const chunks: Uint8Array[] = [];
  stream.isTTY = false;
  stream.write = (chunk: string | Uint8Array, ...rest: readonly unknown[]) => {
    chunks.push(Buffer.from(chunk));
    const done = rest.at(-1);
    if (typeof done === "function") done();
    return true;
  };
  return {
    text: () => Buffer.concat(chunks).toString("utf8"),
    stop: () => Object.assign(stream, { write, isTTY }),
  };
}

/** A folder that is removed after the tests, holding the files given. */
export function folderWith(files: Readonly<Record<string, string | Uint8Array>>): string {
  const folder = temporaryFolder();
  for (const [path, content] of Object.entries(files)) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), content);
  }
  return folder;
}

/** Every file below a folder, in order. */
export const filesIn = (folder: string): string[] =>
  readdirSync(folder, { recursive: true, encoding: "utf8" }).sort();

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
