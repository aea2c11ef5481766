import type { BigIntStats } from "node:fs";
import { lstat, realpath, stat } from "node:fs/promises";
import { basename, dirname, join, resolve } from "node:path";
import { CommandError, exitCodes } from "../exit-codes.js";
import { kindOf } from "../kind-of.js";
import { codeOf, reasonOf } from "../reason-of.js";
import { refuseOddDisk } from "./odd-disk.js";
import type { Place } from "./placed.js";
import { refusal } from "./refusal.js";

/** Longest name of a file on the usual disks, bytes. */
const longestName = 255;

/** The path of what will appear, or is there. */
export const pathOf = ({ parent, name }: Pick<Place, "parent" | "name">): string => join(parent, name);

/**
 * Finds where a target lies, and refuses what nothing can be written to: no name, links, devices, what lies below a
 * file, file systems that are views of the running system.
 *
 * @param given the path as it was written
 * @param elsewhere how to name another, as the beginning of a sentence
 * @throws CommandError that says what stands in the way
 */
export async function placeOf(given: string, elsewhere: string): Promise<Place> {
  refuseOddName(given, elsewhere);
  const target = resolve(given);
  const found = await foundAt(target, { given, elsewhere });
  if (found?.isSymbolicLink() === true) {
    throw refusal(
      `"${given}" is a link, and links are neither followed for writing nor replaced.`,
      elsewhere,
    );
  }
  if (found !== null && !found.isDirectory() && !found.isFile()) {
    throw refusal(`"${given}" is ${kindOf(found)}, not a file or folder.`, elsewhere);
  }
  const { parent, first } = await firstMissing(target, { given, elsewhere });
  const place = {
    given,
    parent,
    name: basename(first),
    below: target === first ? "" : target.slice(first.length + 1),
    existing: found,
  };
  await refuseOddDisk(place, elsewhere);
  return place;
}

function refuseOddName(given: string, elsewhere: string): void {
  if (given.trim() === "") throw new CommandError(exitCodes.usage, `A name is missing.\n  ${elsewhere}.`);
  if (given.includes("\0"))
    throw refusal("The name contains a character that is not allowed in a file name.", elsewhere);
  const parts = given.split(process.platform === "win32" ? /[\\/]+/ : /\/+/);
  const last = parts.findLast((part) => part !== "");
  if (last === undefined || last === "." || last === ".." || dirname(resolve(given)) === resolve(given)) {
    throw refusal(`"${given}" does not name a file or folder that could be written.`, elsewhere);
  }
  if (parts.some((part) => Buffer.byteLength(part) > longestName)) {
    throw refusal(`"${given.slice(0, 40)}..." has a name that is too long.`, elsewhere);
  }
}

interface Named {
  readonly given: string;
  readonly elsewhere: string;
}

async function foundAt(path: string, { given, elsewhere }: Named): Promise<BigIntStats | null> {
  try {
    return await lstat(path, { bigint: true });
  } catch (error) {
    if (codeOf(error) === "ENOENT") return null;
    throw refusal(`"${given}" ${reasonOf(error)}.`, elsewhere);
  }
}

/** The nearest folder above that is there, and the name below it. */
async function firstMissing(target: string, named: Named): Promise<{ parent: string; first: string }> {
  const above = dirname(target);
  if ((await foundAt(above, named)) === null) return firstMissing(above, named);
  const { given, elsewhere } = named;
  try {
    const folder = await stat(above);
    if (!folder.isDirectory()) {
      throw refusal(`"${given}" lies below "${above}", which is ${kindOf(folder)}, not a folder.`, elsewhere);
    }
    return { parent: await realpath(above), first: target };
  } catch (error) {
    if (error instanceof CommandError) throw error;
    throw refusal(`"${given}" cannot be reached: "${above}" ${reasonOf(error)}.`, elsewhere);
  }
}
