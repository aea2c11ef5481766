import { lstat, readdir, rename, rmdir, unlink } from "node:fs/promises";
import { basename, dirname, join } from "node:path";
import { codeOf } from "../reason-of.js";
import { isThere, settleNames } from "./disk.js";
import { type Marker, parts, recognise } from "./marker.js";
import { contentsOf, isAsListed, listingIn, manifestName, walk } from "./own-folder.js";

/*
 * What is in a work folder says how far a run has come, so that the same steps finish a run that went well, undo one
 * that failed, and follow one that was killed:
 *
 *   earlier, and nothing at the target    the earlier folder goes back
 *   earlier, something there, no new      the new one is in place: the earlier one is deleted, file by file, as listed
 *   earlier, something there, and new     somebody else put it there: the earlier one is kept under a name beside it
 *   gone                                  the deleting goes on
 *   new                                   the files named in the marker are deleted
 *
 * Whatever is found that is not ours is never deleted: it is moved beside the target, under a name that can be seen.
 */

/**
 * Brings a work folder to its end and removes it.
 *
 * @param work the work folder; nobody else may be at work in it
 * @returns names beside the target under which something was kept that is not ours
 */
export async function settle(work: string): Promise<readonly string[]> {
  const recognised = await recognise(work);
  if (recognised.is === "not ours") return [];
  const kept: string[] = [];
  if (recognised.is === "ours") {
    const { marker } = recognised;
    const keep = async (part: string) => {
      kept.push(await setAside(join(work, part), join(dirname(work), marker.name)));
    };
    await settleEarlier(work, { marker, keep });
    await settleNew(work, { marker, keep });
    const known = await readdir(work);
    for (const part of known) if (part !== parts.marker) await keep(part);
  }
  await unlink(join(work, parts.marker)).catch(ignoreMissing);
  // once it is empty, its name may already have gone to another run
  await rmdir(work).catch(ignoring("ENOENT", "ENOTEMPTY", "EEXIST"));
  await settleNames(dirname(work));
  return kept;
}

interface Settling {
  readonly marker: Marker;
  readonly keep: (part: string) => Promise<void>;
}

async function settleEarlier(work: string, { marker, keep }: Settling): Promise<void> {
  const target = join(dirname(work), marker.name);
  const [earlier, gone] = [join(work, parts.earlier), join(work, parts.gone)];
  if (await isThere(earlier)) {
    if (!(await isThere(target))) {
      await rename(earlier, target);
      await settleNames(dirname(work));
    } else if (await isThere(join(work, parts.fresh))) await keep(parts.earlier);
    else if (await mayGo(earlier)) await rename(earlier, gone);
    else await keep(parts.earlier);
  }
  if ((await isThere(gone)) && !(await deleteListed(gone))) await keep(parts.gone);
}

/** Looked through once more, since somebody may have put a file in it in the meantime. */
async function mayGo(folder: string): Promise<boolean> {
  const { isEmpty, kind, strangers } = await contentsOf(folder);
  return isEmpty || (kind !== null && strangers.length === 0);
}

/** Deletes the files of a folder that are as its manifest lists them, the manifest last; whether nothing is left. */
async function deleteListed(folder: string): Promise<boolean> {
  const listing = await listingIn(folder);
  for await (const { path, full, entry } of walk(folder)) {
    const listed = listing?.files.get(path);
    if (entry.isDirectory()) await rmdir(full).catch(ignoreFilled);
    else if (listed !== undefined && (await isAsListed(full, listed))) await unlink(full);
  }
  const left = await readdir(folder);
  if (left.length > 1 || (left.length === 1 && (left[0] !== manifestName || listing === null))) return false;
  await unlink(join(folder, manifestName)).catch(ignoreMissing);
  return rmdir(folder).then(() => true, ignoreFilled);
}

async function settleNew(work: string, { marker, keep }: Settling): Promise<void> {
  const fresh = join(work, parts.fresh);
  if (await isThere(fresh)) {
    if (marker.kind === "file") await giveUpPlace(work, marker);
    const listed = new Set(marker.files);
    for await (const { path, full, entry } of walk(fresh)) {
      if (entry.isDirectory()) await rmdir(full).catch(ignoreFilled);
      else if (entry.isFile() && listed.has(path)) await unlink(full);
    }
    if (!(await rmdir(fresh).then(() => true, ignoreFilled))) await keep(parts.fresh);
  }
  await unlink(join(work, parts.holding)).catch(ignoreMissing);
}

/** Takes away the empty file that held the place of the target; one with a byte in it is somebody's. */
async function giveUpPlace(work: string, { name }: Marker): Promise<void> {
  if (!(await isThere(join(work, parts.holding)))) return;
  const target = join(dirname(work), name);
  const found = await lstat(target).catch(() => null);
  if (found?.isFile() === true && found.size === 0) await unlink(target);
}

/** Moves something that is not ours beside the target, under a name that is free. */
async function setAside(from: string, target: string): Promise<string> {
  const stem = join(dirname(target), basename(target).slice(0, longestStem));
  for (let number = 1; ; number++) {
    const free = `${stem}-kept${number === 1 ? "" : `-${number}`}`;
    if (await isThere(free)) continue;
    await rename(from, free);
    return free;
  }
}

/** So many letters of a name leave room for the ending, whatever the script. */
const longestStem = 60;

const ignoring =
  (...codes: readonly string[]) =>
  (error: unknown): false => {
    if (codes.includes(codeOf(error))) return false;
    throw error;
  };
const ignoreMissing = ignoring("ENOENT");
const ignoreFilled = ignoring("ENOTEMPTY", "EEXIST");
