import { randomUUID } from "node:crypto";
import { createReadStream } from "node:fs";
import { mkdir, readdir, readFile, rename, rm, stat, writeFile } from "node:fs/promises";
import { basename, dirname, join, resolve } from "node:path";
import { CommandError, exitCodes } from "./exit-codes.js";

/** A file to be written, its path relative to the folder. */
export interface OutputFile {
  readonly path: string;
  readonly content: string | Uint8Array;
}

/** The largest table that is read into memory; larger ones are refused before they are read. */
const largestBytes = 1_000_000_000;

/** So much of a file is read at a time, bytes: in smaller pieces the waiting for them is a tenth of the time. */
const pieceBytes = 262_144;

/** The bytes of a file in pieces, for tables of any size. */
export const piecesOfFile = (path: string): AsyncIterable<Uint8Array> =>
  createReadStream(path, { highWaterMark: pieceBytes });

/**
 * Reads an input file.
 *
 * @param path where it lies
 * @param named what to call it in a message, and who named it
 * @throws CommandError that says what is missing and where the name came from
 */
export async function readInput(path: string, named: { what: string; by: string }): Promise<Uint8Array> {
  try {
    const { size } = await stat(path);
    if (size > largestBytes) {
      throw new CommandError(
        exitCodes.input,
        `${named.what} "${path}" holds ${size} bytes; at most ${largestBytes} can be read.`,
      );
    }
    return await readFile(path);
  } catch (error) {
    if (error instanceof CommandError) throw error;
    throw new CommandError(
      exitCodes.input,
      `${named.what} "${path}" ${reasonOf(error)}.\n  It is named by ${named.by}: mend the name there, or put the file in place.`,
    );
  }
}

export interface WriteOptions {
  /** Whether an earlier folder that this toolkit wrote may be replaced; null where that is not on offer. */
  readonly replace: boolean | null;
  /** How to name another folder, as the beginning of a sentence. */
  readonly elsewhere?: string;
}

/**
 * Writes a whole folder or nothing: everything goes to a neighbouring temporary folder, which then takes the place.
 *
 * @param folder the folder that will hold the files
 * @param files what it will hold
 * @param options see WriteOptions
 * @throws CommandError when the folder is in the way or cannot be written; then it is as it was
 */
export async function writeFolder(
  folder: string,
  files: readonly OutputFile[],
  { replace, elsewhere = "Choose another folder with --into" }: WriteOptions,
): Promise<void> {
  const target = resolve(folder);
  const kept = await occupants(target, elsewhere);
  if (kept.length > 0 && !(replace === true && kept.includes("manifest.json"))) {
    throw new CommandError(
      exitCodes.output,
      replace === true
        ? `"${folder}" holds files and no manifest.json, so it is not a folder of this toolkit and is not replaced.\n  ${elsewhere}.`
        : `"${folder}" is not empty.\n  ${elsewhere}${replace === null ? "" : ", or add --replace to replace an earlier one"}.`,
    );
  }
  const nonce = randomUUID().slice(0, 8);
  const temporary = join(dirname(target), `.${basename(target)}-${nonce}`);
  try {
    for (const { path, content } of files) {
      const place = join(temporary, path);
      await mkdir(dirname(place), { recursive: true });
      await writeFile(place, content);
    }
    await swapIn(temporary, target);
  } catch (error) {
    await rm(temporary, { recursive: true, force: true });
    throw new CommandError(
      exitCodes.output,
      `"${folder}" cannot be written: it ${reasonOf(error)}.\n  Nothing was changed.`,
    );
  }
}

/**
 * Writes one file that does not exist yet, or takes the place of one where that is asked for.
 *
 * @throws CommandError when it exists or cannot be written
 */
export async function writeNewFile(
  path: string,
  content: string,
  { replace = false }: { readonly replace?: boolean } = {},
): Promise<void> {
  try {
    await writeFile(path, content, { flag: replace ? "w" : "wx" });
  } catch (error) {
    const reason = codeOf(error) === "EEXIST" ? "exists already" : reasonOf(error);
    throw new CommandError(
      exitCodes.output,
      `"${path}" ${reason}.\n  Choose another name; nothing was written.`,
    );
  }
}

/** Puts the temporary folder in the place of the target; the earlier target comes back if that fails. */
async function swapIn(temporary: string, target: string): Promise<void> {
  const earlier = `${temporary}-earlier`;
  const had = await rename(target, earlier).then(
    () => true,
    () => false,
  );
  try {
    await rename(temporary, target);
  } catch (error) {
    if (had) await rename(earlier, target);
    throw error;
  }
  await rm(earlier, { recursive: true, force: true });
}

async function occupants(folder: string, elsewhere: string): Promise<readonly string[]> {
  try {
    return await readdir(folder);
  } catch (error) {
    if (codeOf(error) === "ENOENT") return [];
    throw new CommandError(exitCodes.output, `"${folder}" ${reasonOf(error)}.\n  ${elsewhere}.`);
  }
}

const codeOf = (error: unknown): string =>
  error instanceof Error && "code" in error ? String(error.code) : "";

/** What the operating system said, as the end of a sentence. */
export function reasonOf(error: unknown): string {
  const words: Readonly<Record<string, string>> = {
    ENOENT: "does not exist",
    EEXIST: "exists already",
    EACCES: "may not be opened with your permissions",
    EPERM: "may not be changed with your permissions",
    EISDIR: "is a folder, not a file",
    ENOTDIR: "lies below something that is a file, not a folder",
    ENOSPC: "does not fit: the disk is full",
    EROFS: "lies on a disk that cannot be written to",
  };
  return (
    words[codeOf(error)] ?? `could not be used (${error instanceof Error ? error.message : String(error)})`
  );
}
