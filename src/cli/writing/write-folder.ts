import { chmod, lstat, mkdir, rename } from "node:fs/promises";
import { dirname, join } from "node:path";
import type { FolderKind, OutputFile } from "../../run/manifest.js";
import { settleNames, writeDurably } from "./disk.js";
import { refuseInputs } from "./inputs.js";
import { parts } from "./marker.js";
import { contentsOf } from "./own-folder.js";
import { pathOf, placeOf } from "./place.js";
import type { Place } from "./placed.js";
import { orElse, orRefusal, refusal } from "./refusal.js";
import { settleLeftovers, takeWork, type Work } from "./work-folder.js";

export interface FolderOptions {
  /** Every file that the command reads: a target that is one, or holds one, is refused. */
  readonly inputs: readonly string[];
  /** The kind of earlier folder that may be replaced; false where none may, null where that is not on offer. */
  readonly replace: FolderKind | false | null;
  /** Says to a person what was kept because it is not ours. */
  readonly tell: (text: string) => void;
  /** How to name another folder, as the beginning of a sentence. */
  readonly elsewhere?: string;
}

type Settled = Required<FolderOptions>;
const withDefaults = (options: FolderOptions): Settled => ({
  elsewhere: "Choose another folder with --into",
  ...options,
});

/**
 * Refuses a folder that could not be written, before the work of making its files; settles what an earlier run has left
 * beside it.
 *
 * @throws CommandError that says what stands in the way; nothing was changed
 */
export async function refuseFolder(folder: string, options: FolderOptions): Promise<void> {
  await openPlace(folder, withDefaults(options));
}

/**
 * Writes a whole folder or nothing. An earlier folder is replaced only where this toolkit wrote every file in it, and
 * at whatever moment the run is killed, it is whole, or is whole again when the next run has begun.
 *
 * @param folder the folder that will hold the files
 * @param files what it will hold
 * @throws CommandError when the folder is in the way or cannot be written; then it is as it was
 */
export async function writeFolder(
  folder: string,
  files: readonly OutputFile[],
  options: FolderOptions,
): Promise<void> {
  const settled = withDefaults(options);
  const early = await openPlace(folder, settled);
  const work = await orRefusal(folder, () =>
    takeWork(early, { kind: "folder", files: pathsIn(early, files), ...settled }),
  );
  try {
    // once more, now that no other run writes there
    const place = await samePlace(early, settled);
    await orRefusal(folder, () => stage(work, pathsAndContent(place, files)));
    await orRefusal(folder, () => putInPlace(work, { early, settled }));
  } catch (error) {
    tellKept(await work.end().catch(() => []), settled);
    throw error;
  }
  tellKept(await work.end().catch(() => [work.folder]), settled);
}

/** Finds the place, settles what earlier runs have left there, and refuses it where it is in the way. */
async function openPlace(folder: string, options: Settled): Promise<Place> {
  const { parent } = await placeOf(folder, options.elsewhere);
  tellKept(await orRefusal(folder, () => settleLeftovers(parent)), options);
  return checkedPlace(folder, options);
}

/** The place, looked at once more: it must still be where the work folder was made for. */
async function samePlace(early: Place, options: Settled): Promise<Place> {
  const place = await checkedPlace(early.given, options);
  if (pathOf(place) === pathOf(early) && place.below === early.below) return place;
  throw refusal(`Folders above "${early.given}" have changed while it was being written.`, "Try again");
}

async function checkedPlace(folder: string, options: Settled): Promise<Place> {
  const place = await placeOf(folder, options.elsewhere);
  await refuseInputs(place, options);
  if (place.existing !== null) {
    if (!place.existing.isDirectory())
      throw refusal(`"${folder}" is a file, not a folder.`, options.elsewhere);
    await orRefusal(folder, () => refuseStrangers(pathOf(place), { folder, options }));
  }
  return place;
}

/** So many of the files in the way are named. */
const mostNamed = 5;

/** @throws CommandError that names what this toolkit did not write */
async function refuseStrangers(
  path: string,
  { folder, options }: { readonly folder: string; readonly options: Settled },
): Promise<void> {
  const { replace, elsewhere } = options;
  const { isEmpty, kind, strangers } = await contentsOf(path);
  if (isEmpty) return;
  if (replace === null || replace === false) {
    const orReplace = replace === null ? "" : ", or add --replace to replace an earlier one";
    throw refusal(`"${folder}" is not empty.`, `${elsewhere}${orReplace}`);
  }
  if (kind !== null && kind !== replace) {
    throw refusal(`"${folder}" holds a ${kind}, not a ${replace}, and is not replaced.`, elsewhere);
  }
  if (strangers.length === 0) return;
  const named = strangers.slice(0, mostNamed).join(", ");
  const more = strangers.length > mostNamed ? ` and ${strangers.length - mostNamed} more` : "";
  throw refusal(
    kind !== null
      ? `"${folder}" holds what this toolkit did not write, and is not replaced: ${named}${more}.`
      : `"${folder}" holds files and no manifest.json of this toolkit, and is not replaced: ${named}${more}.`,
    orElse("Move them to another place", elsewhere),
  );
}

/** Files below the name that will appear, where folders above the target are missing too. */
const pathsAndContent = ({ below }: Place, files: readonly OutputFile[]): readonly OutputFile[] =>
  below === "" ? files : files.map(({ path, content }) => ({ path: `${below}/${path}`, content }));
const pathsIn = (place: Place, files: readonly OutputFile[]): readonly string[] =>
  pathsAndContent(place, files).map(({ path }) => path.replaceAll("\\", "/"));

async function stage({ fresh }: Work, files: readonly OutputFile[]): Promise<void> {
  await mkdir(fresh);
  const folders = new Set([fresh]);
  for (const { path, content } of files) {
    const full = join(fresh, path);
    if (!folders.has(dirname(full))) await mkdir(dirname(full), { recursive: true });
    folders.add(dirname(full));
    await writeDurably(full, content);
  }
  for (const each of folders) await settleNames(each);
}

/** Gives the new folder its name. An earlier one is moved into the work folder first, and looked through there again. */
async function putInPlace(
  work: Work,
  { early, settled }: { readonly early: Place; readonly settled: Settled },
): Promise<void> {
  const place = await samePlace(early, settled);
  const target = pathOf(place);
  if (place.existing !== null) {
    const earlier = join(work.folder, parts.earlier);
    await chmod(work.fresh, Number(place.existing.mode & 0o777n));
    await rename(target, earlier);
    await refuseStrangers(earlier, { folder: early.given, options: settled });
  }
  await refuseTaken(target);
  await rename(work.fresh, target);
  await settleNames(work.folder);
  await settleNames(place.parent);
}

/** An empty folder would be replaced by a rename without a word. */
async function refuseTaken(target: string): Promise<void> {
  const found = await lstat(target).catch(() => null);
  if (found !== null) throw Object.assign(new Error("taken"), { code: "ENOTEMPTY" });
}

const tellKept = (kept: readonly string[], { tell }: Settled): void => {
  for (const path of kept) tell(`Kept, since this toolkit did not write all of it: ${path}`);
};
