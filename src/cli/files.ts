import { createReadStream } from "node:fs";
import { readFile, stat } from "node:fs/promises";
import { oneLine } from "../schema/hidden-characters.js";
import { CommandError, exitCodes } from "./exit-codes.js";
import { reasonOf } from "./reason-of.js";

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
        `${named.what} "${oneLine(path)}" holds ${size} bytes; at most ${largestBytes} can be read.`,
      );
    }
    return await readFile(path);
  } catch (error) {
    if (error instanceof CommandError) throw error;
    throw new CommandError(
      exitCodes.input,
      `${named.what} "${oneLine(path)}" ${reasonOf(error)}.\n  It is named by ${named.by}: mend the name there, or put the file in place.`,
    );
  }
}
