import { constants, type Stats } from "node:fs";
import { type FileHandle, open, stat } from "node:fs/promises";
import { settingsText } from "../ingest/text/settings-text.js";
import { largestFile } from "../ingest/text/text-of-file.js";
import { notUtf8 } from "../run/open-study.js";
import { oneLine } from "../schema/hidden-characters.js";
import { largestSettings } from "../schema/settings/parse-yaml.js";
import { CommandError, exitCodes } from "./exit-codes.js";
import { kindOf } from "./kind-of.js";
import { reasonOf } from "./reason-of.js";
import type { Terminal } from "./terminal.js";

/** What to call an input in a message, and who named it. */
export interface NamedInput {
  readonly what: string;
  readonly by: string;
  /** Larger files are refused before they are read, bytes; by default what is read of a table into memory. */
  readonly atMost?: number;
}

/** So much of a file is read at a time, bytes: in smaller pieces the waiting for them is a tenth of the time. */
const pieceBytes = 262_144;

/**
 * Reads an input file as a whole.
 *
 * @param path where it lies
 * @param named what to call it in a message, who named it, and how large it may be
 * @throws CommandError where it is no file on a disk, too large, or changes while it is read
 */
export const readInput = async (path: string, named: NamedInput): Promise<Uint8Array> =>
  (await readFileAndMode(path, named)).bytes;

/** The same, with the permissions of the file that was read. */
export async function readFileAndMode(
  path: string,
  named: NamedInput,
): Promise<{ readonly bytes: Uint8Array; readonly mode: number }> {
  const { handle, found } = await openInput(path, named);
  try {
    const bytes = await wholeOf(handle, found);
    return { bytes, mode: found.mode };
  } catch (error) {
    throw refusal(path, named, reasonFor(error));
  } finally {
    await handle.close();
  }
}

/**
 * Reads a file of settings and decodes it as a table is decoded; says so where it is not UTF-8.
 *
 * @throws CommandError as `readInput`; SettingsError where it is no text
 */
export async function readSettingsFile(
  path: string,
  { name, notice, ...named }: NamedInput & { readonly name: string; readonly notice: Terminal["notice"] },
): Promise<{ readonly bytes: Uint8Array; readonly text: string }> {
  const bytes = await readInput(path, { ...named, atMost: largestSettings });
  const { text, encoding } = settingsText(name, bytes);
  if (encoding === "windows-1252") notice(notUtf8(name));
  return { bytes, text };
}

/** The bytes of a table in pieces, whatever its size; not more of them than there were when it was opened. */
export async function* piecesOfFile(
  path: string,
  named: NamedInput = { what: "table", by: "on the command line" },
): AsyncIterable<Uint8Array> {
  const { handle, found } = await openInput(path, { ...named, atMost: Number.POSITIVE_INFINITY });
  try {
    if (found.size === 0) return;
    yield* handle.createReadStream({
      highWaterMark: pieceBytes,
      start: 0,
      end: found.size - 1,
      autoClose: false,
    });
  } catch (error) {
    throw refusal(path, named, reasonFor(error));
  } finally {
    await handle.close();
  }
}

/** Opens a file by kind: looked at before it is opened, since opening a device does things, and once more when open. */
async function openInput(
  path: string,
  named: NamedInput,
): Promise<{ readonly handle: FileHandle; readonly found: Stats }> {
  let handle: FileHandle | null = null;
  try {
    refuseByKind(await stat(path));
    // should a pipe have taken the place meanwhile, opening it does not wait for somebody to write into it
    handle = await open(path, constants.O_RDONLY | (constants.O_NONBLOCK ?? 0));
    const found = await handle.stat();
    refuseByKind(found);
    const { atMost = largestFile } = named;
    if (found.size > atMost) {
      throw new Unusable(`contains ${found.size} bytes, but at most ${atMost} are read`);
    }
    return { handle, found };
  } catch (error) {
    await handle?.close();
    throw refusal(path, named, reasonFor(error));
  }
}

/** Why a file is not read, as the end of a sentence. */
class Unusable extends Error {}

function refuseByKind(found: Stats): void {
  if (found.isFile()) return;
  throw new Unusable(`is ${kindOf(found)}, not a file on a disk`);
}

/** As many bytes as the file had when it was opened; one more would be read to notice that it grows. */
async function wholeOf(handle: FileHandle, { size }: Pick<Stats, "size">): Promise<Uint8Array> {
  const bytes = new Uint8Array(size + 1);
  let read = 0;
  while (read < bytes.length) {
    const { bytesRead } = await handle.read(bytes, read, bytes.length - read, null);
    if (bytesRead === 0) break;
    read += bytesRead;
  }
  if (read === size) return bytes.subarray(0, size);
  throw new Unusable(
    size === 0
      ? "claims to be empty but is not: it is not a file on a disk"
      : "is changing while it is read: wait until it has been written, or copy it",
  );
}

const reasonFor = (error: unknown): string => (error instanceof Unusable ? error.message : reasonOf(error));

const refusal = (path: string, { what, by }: NamedInput, reason: string): CommandError =>
  new CommandError(
    exitCodes.input,
    `The ${what} "${oneLine(path)}" ${reason}.\n  It is named ${by}: correct the name there, or put the file in that place.`,
  );
