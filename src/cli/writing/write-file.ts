import { chmod, link, mkdir, open, readFile, rename, unlink } from "node:fs/promises";
import { join } from "node:path";
import { codeOf } from "../reason-of.js";
import { settleNames, writeDurably } from "./disk.js";
import { refuseInputs } from "./inputs.js";
import { parts } from "./marker.js";
import { pathOf, placeOf } from "./place.js";
import type { Place } from "./placed.js";
import { orRefusal, refusal } from "./refusal.js";
import { settleLeftovers, takeWork, type Work } from "./work-folder.js";

export interface FileOptions {
  /** Every file that the command reads: a target that is one is refused. */
  readonly inputs: readonly string[];
  /** How to name another file, as the beginning of a sentence. */
  readonly elsewhere: string;
  /** Tells by its text whether a file is one that this toolkit wrote and may replace; null where none may be. */
  readonly mayReplace?: ((text: string) => boolean) | null;
  /** Permissions of a new file. */
  readonly mode?: number;
}

/** Largest file that is looked at for being one of ours, bytes. */
const largestOwn = 64_000_000;

/**
 * Refuses a file that could not be written, before the work of making its content.
 *
 * @throws CommandError that says what stands in the way; nothing was changed
 */
export async function refuseFile(path: string, options: FileOptions): Promise<void> {
  await openPlace(path, options);
}

/**
 * Writes one file whole or not at all: it does not exist yet, or is one that may be replaced.
 *
 * @throws CommandError when it is in the way or cannot be written; then it is as it was
 */
export async function writeNewFile(
  path: string,
  content: string | Uint8Array,
  options: FileOptions,
): Promise<void> {
  const early = await openPlace(path, options);
  const { elsewhere, mode } = options;
  await orRefusal(path, async () => {
    const work = await takeWork(early, { kind: "file", files: [early.name], elsewhere });
    try {
      const place = await checkedPlace(path, options);
      const fresh = join(work.fresh, place.name);
      await mkdir(work.fresh);
      await writeDurably(fresh, content, mode === undefined ? {} : { mode });
      if (mode !== undefined) await chmod(fresh, mode);
      await putInPlace(work, { path, options });
    } catch (error) {
      await work.end().catch(() => undefined);
      throw error;
    }
    // the file is in place whatever becomes of the work folder, which the next run clears
    await work.end().catch(() => undefined);
  });
}

async function openPlace(path: string, options: FileOptions): Promise<Place> {
  const { parent } = await placeOf(path, options.elsewhere);
  await orRefusal(path, () => settleLeftovers(parent));
  return checkedPlace(path, options);
}

async function checkedPlace(path: string, options: FileOptions): Promise<Place> {
  const { elsewhere, mayReplace = null } = options;
  const place = await placeOf(path, elsewhere);
  if (/[\\/]$/.test(path)) throw refusal(`"${path}" is the name of a folder, not of a file.`, elsewhere);
  if (place.below !== "") throw refusal(`"${path}" is in a folder that does not exist.`, elsewhere);
  if (place.existing === null) return place;
  await refuseInputs(place, options);
  if (place.existing.isDirectory()) throw refusal(`"${path}" is a folder, not a file.`, elsewhere);
  if (mayReplace === null) throw refusal(`"${path}" exists already.`, elsewhere);
  if (place.existing.nlink > 1n) {
    throw refusal(`"${path}" is one file under several names (hard links), and is not replaced.`, elsewhere);
  }
  const isOurs = place.existing.size <= largestOwn && mayReplace(await readFile(pathOf(place), "utf8"));
  if (!isOurs)
    throw refusal(
      `"${path}" was not written by this toolkit, or has been changed since, and is not replaced.`,
      elsewhere,
    );
  return place;
}

async function putInPlace(
  work: Work,
  { path, options }: { readonly path: string; readonly options: FileOptions },
): Promise<void> {
  const place = await checkedPlace(path, options);
  const [fresh, target] = [join(work.fresh, place.name), pathOf(place)];
  if (place.existing !== null) {
    await chmod(fresh, Number(place.existing.mode & 0o777n));
    await rename(fresh, target);
  } else await putWithoutReplacing(work, { fresh, target });
  await settleNames(place.parent);
}

/** Codes of disks that know no second name for a file. */
const withoutLinks = ["EPERM", "ENOTSUP", "EOPNOTSUPP", "ENOSYS", "EMLINK"];

/** A second name is given only where there is none; without links an empty file of ours holds the place. */
async function putWithoutReplacing(
  work: Work,
  { fresh, target }: { readonly fresh: string; readonly target: string },
): Promise<void> {
  try {
    await link(fresh, target);
  } catch (error) {
    if (!withoutLinks.includes(codeOf(error))) throw error;
    await writeDurably(join(work.folder, parts.holding), "");
    await holdPlace(target).catch(async (taken: unknown) => {
      await unlink(join(work.folder, parts.holding));
      throw taken;
    });
    await rename(fresh, target);
  }
}

const holdPlace = async (target: string): Promise<void> => (await open(target, "wx")).close();
