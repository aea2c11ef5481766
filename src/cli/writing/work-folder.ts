import { createHash, randomUUID } from "node:crypto";
import { mkdir, readdir, rename, rmdir, unlink, utimes } from "node:fs/promises";
import { basename, dirname, join } from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import { codeOf } from "../reason-of.js";
import { isThere, settleNames, writeDurably } from "./disk.js";
import { type Marker, markerText, parts, type Recognised, recognise, recogniseAnother } from "./marker.js";
import { beatInterval, hasEnded, nextBeat, type Owner, ownerPattern, thisProcess } from "./owner.js";
import type { Place } from "./placed.js";
import { orElse, refusal } from "./refusal.js";
import { settle } from "./settle.js";

/*
 * A work folder lies beside the target, so that what was written in it needs only a new name to be in place. It is made
 * under a name of its run, gets its marker, and is then given the one name that all runs into that target share: the
 * name can be had once, so that two runs never write at once. A run that finds a work folder whose run has ended takes
 * it under a name of its own, which one run alone can do, and settles it.
 */

const prefix = ".pulley-outcomes-writing-";
const sharedName = new RegExp(`^\\${prefix}[0-9a-f]{16}$`);
const ownName = new RegExp(`^\\${prefix}(begin|settle)-(${ownerPattern})-[0-9a-f]{8}$`);

/** The name that all runs into a target share; small and capital letters are one, as they are on some disks. */
export const sharedNameOf = (name: string): string =>
  prefix + createHash("sha256").update(name.normalize("NFC").toLowerCase()).digest("hex").slice(0, 16);

const newName = (purpose: "begin" | "settle"): string =>
  `${prefix}${purpose}-${thisProcess()}-${randomUUID().slice(0, 8)}`;

/** A work folder that this run holds. */
export interface Work {
  readonly folder: string;
  /** Where the new files go. */
  readonly fresh: string;
  /** Brings everything to its end: see `settle`. */
  readonly end: () => Promise<readonly string[]>;
}

/** How often a run tries again while another settles what a third has left, and the pause between, milliseconds. */
const tries = 50;
const betweenTries = 100;

/**
 * Takes the work folder of a target.
 *
 * @throws CommandError where another run writes to that target now
 */
export async function takeWork(
  place: Place,
  { files, kind, elsewhere }: Pick<Marker, "files" | "kind"> & { readonly elsewhere: string },
): Promise<Work> {
  const marker = { kind, name: place.name, owner: thisProcess(), files };
  const shared = join(place.parent, sharedNameOf(place.name));
  for (let attempt = 0; attempt < tries; attempt++) {
    await settleLeftovers(place.parent);
    await refuseWhileAnotherWrites(shared, { place, elsewhere });
    if (!(await isBeingSettled(place)) && (await begin(shared, { place, marker }))) {
      if (!(await isBeingSettled(place))) return workIn(shared);
      await settle(shared);
    }
    await pause(betweenTries);
  }
  throw anotherRun(place, elsewhere);
}

function workIn(folder: string): Work {
  let beat = 1;
  const marker = join(folder, parts.marker);
  const timer = setInterval(() => {
    beat = nextBeat(beat);
    utimes(marker, beat, beat).catch(() => undefined);
  }, beatInterval);
  timer.unref();
  const end = async () => {
    clearInterval(timer);
    return settle(folder);
  };
  return { folder, fresh: join(folder, parts.fresh), end };
}

/** Makes the work folder under a name of this run and gives it the shared name; false where that is taken. */
async function begin(
  shared: string,
  { place, marker }: { readonly place: Place; readonly marker: Marker },
): Promise<boolean> {
  const own = join(place.parent, newName("begin"));
  await mkdir(own, { mode: 0o700 });
  try {
    await writeDurably(join(own, parts.marker), markerText(marker));
    await rename(own, shared);
    await settleNames(place.parent);
    return true;
  } catch (error) {
    await unlink(join(own, parts.marker)).catch(() => undefined);
    await rmdir(own).catch(() => undefined);
    if (["ENOTEMPTY", "EEXIST", "EPERM", "ENOTDIR"].includes(codeOf(error)) && (await isThere(shared))) {
      return false;
    }
    throw error;
  }
}

/**
 * Settles every work folder in a folder whose run has ended.
 *
 * @returns where something was kept that this toolkit did not write
 */
export async function settleLeftovers(parent: string): Promise<readonly string[]> {
  const kept: string[] = [];
  for (const name of await readdir(parent)) {
    if (!sharedName.test(name) && !ownName.test(name)) continue;
    const folder = join(parent, name);
    const recognised = await recogniseAnother(folder).catch(() => null);
    if (recognised === null || recognised.is === "not ours") continue;
    const owner = ownerOf(name, recognised);
    if (owner !== null && !(await hasEnded(owner, join(folder, parts.marker)))) continue;
    const own = await takeOver(folder, owner);
    if (own !== null) kept.push(...(await settle(own)));
  }
  return kept;
}

/** Gives a work folder whose run has ended a name of this run; null where somebody else was quicker. */
async function takeOver(folder: string, owner: Owner | null): Promise<string | null> {
  const own = join(dirname(folder), newName("settle"));
  try {
    await rename(folder, own);
  } catch {
    return null;
  }
  const taken = await recognise(own);
  const isOther = taken.is === "ours" && !ownName.test(basename(folder)) && taken.marker.owner !== owner;
  if (!isOther) return own;
  // in the meantime it was settled, and the name went to a run that lives
  await rename(own, folder).catch(() => undefined);
  return null;
}

/** The run that a work folder belongs to; null where it has only a shared name and nothing in it. */
function ownerOf(name: string, recognised: Recognised): Owner | null {
  const own = ownName.exec(name);
  if (own !== null) return own[2]!;
  return recognised.is === "ours" ? recognised.marker.owner : null;
}

async function refuseWhileAnotherWrites(
  shared: string,
  { place, elsewhere }: { readonly place: Place; readonly elsewhere: string },
): Promise<void> {
  const recognised = await recogniseAnother(shared).catch(() => null);
  if (recognised?.is === "ours") throw anotherRun(place, elsewhere);
  if (recognised?.is === "not ours") {
    throw refusal(
      `"${place.given}" cannot be written: "${shared}" is in the way, and is not ours.`,
      elsewhere,
    );
  }
}

const anotherRun = ({ given }: Place, elsewhere: string) =>
  refusal(`Another run is writing to "${given}" now.`, orElse("Wait until it has finished", elsewhere));

/** Whether another run is settling what an earlier one has left for the same target. */
async function isBeingSettled({ parent, name }: Place): Promise<boolean> {
  for (const entry of await readdir(parent)) {
    if (ownName.exec(entry)?.[1] !== "settle") continue;
    const recognised = await recognise(join(parent, entry)).catch(() => null);
    if (recognised?.is === "ours" && sharedNameOf(recognised.marker.name) === sharedNameOf(name)) return true;
  }
  return false;
}
