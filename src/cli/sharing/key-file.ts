import { randomBytes } from "node:crypto";
import { lstat, readFile, realpath, rm } from "node:fs/promises";
import { basename, dirname, join, relative, resolve, sep } from "node:path";
import { keyBytes, keyText, readKeyText, type SecretKey } from "../../privacy/index.js";
import { CommandError, exitCodes } from "../exit-codes.js";
import { readFileAndMode } from "../read-input.js";
import { writeNewFile } from "../writing/index.js";

/** A key, and how to take its file back if nothing else could be written. */
export interface OpenedKey {
  readonly key: SecretKey;
  readonly isNew: boolean;
  readonly takeBack: () => Promise<void>;
}

/** Others than the owner may read, write or run the file. */
const othersMay = 0o077;

/**
 * Opens the key file, or makes one that only its owner may read. The only chance in the toolkit's outputs is in a new key.
 *
 * @param path where the key lies or will lie
 * @param options into: the folder that leaves the site: the key may not lie in it. inputs: the files that are read
 * @throws CommandError when it lies there, when others may read it, or when it is no key
 */
export async function openKey(
  path: string,
  { into, inputs }: { readonly into: string; readonly inputs: readonly string[] },
): Promise<OpenedKey> {
  await refuseInside(path, into);
  const found = await lstat(path).catch(() => null);
  return found === null ? makeKey(path, inputs) : { ...(await readKey(path)), takeBack: async () => {} };
}

/** Does what a key was opened for; a new key goes again where that fails, since nothing was named by it. */
export async function withKey<T>({ takeBack }: OpenedKey, act: () => Promise<T>): Promise<T> {
  try {
    return await act();
  } catch (error) {
    await takeBack();
    throw error;
  }
}

async function refuseInside(path: string, into: string): Promise<void> {
  const [key, folder] = [await realPlace(path), await realPlace(into)];
  const way = relative(folder, key);
  const isInside = way === "" || (way !== ".." && !way.startsWith(`..${sep}`) && resolve(way) !== way);
  if (!isInside) return;
  throw new CommandError(
    exitCodes.input,
    `The key "${path}" would be inside "${into}", the folder that leaves the site.\n  Name another place with --key.`,
  );
}

/** Where a path leads, links followed as far as it exists. */
async function realPlace(path: string): Promise<string> {
  const full = resolve(path);
  try {
    return await realpath(full);
  } catch {
    return dirname(full) === full ? full : join(await realPlace(dirname(full)), basename(full));
  }
}

/** A key file holds about 200 characters. */
const largestKey = 10_000;

async function readKey(path: string): Promise<Pick<OpenedKey, "key" | "isNew">> {
  const { bytes, mode } = await readFileAndMode(path, {
    what: "key",
    by: "with --key, or is beside the study file",
    atMost: largestKey,
  });
  // Windows has no such permissions: there the folder protects the key
  if (process.platform !== "win32" && (mode & othersMay) !== 0) {
    throw new CommandError(
      exitCodes.input,
      `The key "${path}" can be read by other people (permissions ${(mode & 0o777).toString(8)}).\n` +
        `  If nobody else has read it, restrict it: chmod 600 ${path}\n  Otherwise name a new key with --key, and share again whatever was shared with this one.`,
    );
  }
  const read = readKeyText(new TextDecoder().decode(bytes));
  if ("key" in read) return { key: read.key, isNew: false };
  throw new CommandError(
    exitCodes.input,
    `The key "${path}" ${read.fault}.\n  Name the key file with --key, or name a file that does not exist yet to make a new key.`,
  );
}

async function makeKey(path: string, inputs: readonly string[]): Promise<OpenedKey> {
  const key = Uint8Array.from(randomBytes(keyBytes));
  const text = keyText(key);
  await writeNewFile(path, text, {
    inputs,
    elsewhere: "Name another place for the key with --key",
    mode: 0o600,
  });
  const takeBack = async () => {
    // only the key that was just made
    if ((await readFile(path, "utf8").catch(() => null)) === text) await rm(path);
  };
  return { key, isNew: true, takeBack };
}
