import type { Dirent } from "node:fs";
import { lstat, readdir, readFile } from "node:fs/promises";
import { join } from "node:path";
import type { Fingerprint } from "../../run/fingerprint.js";
import { type FolderKind, type Listing, listingOf } from "../../run/manifest.js";
import { kindOf } from "../kind-of.js";
import { fingerprintOf } from "../machine.js";

/** Name of the file that says which files of a folder are ours. */
export const manifestName = "manifest.json";

/** A manifest larger than this is none of ours, bytes. */
const largestManifest = 16_000_000;

/** What a folder holds, as far as it matters for replacing it. */
export interface Contents {
  readonly isEmpty: boolean;
  /** What its manifest.json says it is; null where that is none of this toolkit. */
  readonly kind: FolderKind | null;
  /** Everything that the toolkit did not write, or that has changed since, each with the reason. */
  readonly strangers: readonly string[];
}

/** Looks through a folder: which of its files are those that its manifest lists, byte for byte? */
export async function contentsOf(folder: string): Promise<Contents> {
  const entries = await readdir(folder);
  const listing = await listingIn(folder);
  if (listing === null) return { isEmpty: entries.length === 0, kind: null, strangers: entries };
  const strangers: string[] = [];
  for await (const entry of walk(folder)) {
    const reason = await strangeness(entry, listing);
    if (reason !== null) strangers.push(`${entry.path} (${reason})`);
  }
  return { isEmpty: false, kind: listing.kind, strangers };
}

/** The files that a folder's manifest lists, by path; null where it has no manifest of this toolkit. */
export async function listingIn(folder: string): Promise<Listing | null> {
  const path = join(folder, manifestName);
  const found = await lstat(path).catch(() => null);
  if (found === null || !found.isFile() || found.nlink > 1 || found.size > largestManifest) return null;
  return listingOf(await readFile(path, "utf8"));
}

/** Something below a folder; `path` is relative to it, with forward slashes. */
export interface Entry {
  readonly path: string;
  readonly full: string;
  readonly entry: Dirent;
}

/** Everything below a folder, what a folder holds before the folder itself; links are not followed. */
export async function* walk(folder: string, above = ""): AsyncGenerator<Entry> {
  for (const entry of await readdir(folder, { withFileTypes: true })) {
    const [path, full] = [`${above}${entry.name}`, join(folder, entry.name)];
    if (entry.isDirectory()) yield* walk(full, `${path}/`);
    yield { path, full, entry };
  }
}

/** Why something is not ours to replace; null where it is. */
async function strangeness({ path, full, entry }: Entry, { files }: Listing): Promise<string | null> {
  if (entry.isDirectory()) {
    const isOurs = [...files.keys()].some((listed) => listed.startsWith(`${path}/`));
    return isOurs ? null : "a folder that its manifest.json does not list";
  }
  if (!entry.isFile()) return kindOf(entry);
  if (path === manifestName) return null;
  const listed = files.get(path);
  if (listed === undefined) return "not listed in its manifest.json";
  return (await isAsListed(full, listed)) ? null : "changed since it was written, or linked";
}

/** Whether a file is a plain file with the bytes that were listed, under this name only. */
export async function isAsListed(path: string, listed: Fingerprint): Promise<boolean> {
  const found = await lstat(path);
  if (!found.isFile() || found.nlink > 1 || found.size !== listed.bytes) return false;
  return fingerprintOf(listed.name, await readFile(path)).sha256 === listed.sha256;
}
