import { realpath, stat } from "node:fs/promises";
import { dirname } from "node:path";
import { pathOf } from "./place.js";
import type { Place } from "./placed.js";
import { refusal } from "./refusal.js";

/**
 * Refuses a target that is an input, holds one or lies above one. Files are compared by device and number, so that
 * links, other spellings and disks that take small and capital letters for the same make no difference.
 *
 * @param place the target
 * @param inputs every file that the command reads
 * @throws CommandError that names the input
 */
export async function refuseInputs(
  place: Place,
  { inputs, elsewhere }: { readonly inputs: readonly string[]; readonly elsewhere: string },
): Promise<void> {
  if (place.existing === null) return;
  const isTarget = await sameAs(place);
  for (const input of inputs) {
    const above = await chainOf(input);
    const at = await firstTrue(above, isTarget);
    if (at === -1) continue;
    throw refusal(
      at === 0
        ? `"${place.given}" is "${input}", which this command reads and never writes over.`
        : `"${place.given}" holds "${input}", which this command reads, and is not replaced.`,
      elsewhere,
    );
  }
}

/** Whether a path is the target. */
async function sameAs(place: Place): Promise<(path: string) => Promise<boolean>> {
  const { dev, ino } = place.existing!;
  const target = await realpath(pathOf(place));
  return async (path) => {
    if (path === target) return true;
    const found = await stat(path, { bigint: true }).catch(() => null);
    // some network disks number no files
    return found !== null && found.ino !== 0n && found.ino === ino && found.dev === dev;
  };
}

/** The real path of a file and of every folder above it; nothing where there is no such file. */
async function chainOf(input: string): Promise<readonly string[]> {
  const real = await realpath(input).catch(() => null);
  if (real === null) return [];
  const chain = [real];
  for (let path = real; dirname(path) !== path; path = dirname(path)) chain.push(dirname(path));
  return chain;
}

async function firstTrue(
  paths: readonly string[],
  holds: (path: string) => Promise<boolean>,
): Promise<number> {
  for (const [at, path] of paths.entries()) if (await holds(path)) return at;
  return -1;
}
