import { lstat, readdir, readFile } from "node:fs/promises";
import { dirname, join } from "node:path";
import { z } from "zod";
import { ownerPattern } from "./owner.js";

/**
 * What a work folder says about itself, in its file `marker`: what is being written, where to, and by which process.
 * By it the next run recognises what a run that was killed has left behind.
 */
export interface Marker {
  readonly kind: "folder" | "file";
  /** Name beside the work folder that will appear, or be replaced. */
  readonly name: string;
  readonly owner: string;
  /** Every file that will be written below `new`, with forward slashes. */
  readonly files: readonly string[];
}

/** Names in a work folder. */
export const parts = {
  marker: "marker",
  /** What is being written. */
  fresh: "new",
  /** What was at the target before: whole. */
  earlier: "earlier",
  /** What was at the target before, while it is being deleted. */
  gone: "gone",
  /** Says that an empty file holds the place of the target, where the disk knows no links. */
  holding: "holding",
} as const;

const firstLine = "pulley-outcomes writing 1";
const largestMarker = 4_000_000;

const markerSchema = z.strictObject({
  kind: z.enum(["folder", "file"]),
  name: z.string().refine((name) => !/[\\/\0]/.test(name) && !["", ".", ".."].includes(name)),
  owner: z.string().regex(new RegExp(`^${ownerPattern}$`)),
  files: z.array(z.string()),
});

export const markerText = (marker: Marker): string => `${firstLine}\n${JSON.stringify(marker)}\n`;

/** How far a work folder has got to say what it is. */
export type Recognised =
  | { readonly is: "ours"; readonly marker: Marker }
  /** Killed before its marker was complete: it holds nothing else. */
  | { readonly is: "begun" }
  | { readonly is: "not ours" };

/**
 * Recognises a work folder that another run may have made. One that belongs to somebody else is none of ours; on disks
 * that give all files one owner, that is the owner of the folder around it.
 */
export async function recogniseAnother(folder: string): Promise<Recognised> {
  const [found, around] = [await lstat(folder), await lstat(dirname(folder))];
  const isMine = process.getuid === undefined || [process.getuid(), around.uid].includes(found.uid);
  return isMine ? recognise(folder) : { is: "not ours" };
}

/** Recognises a work folder by what is in it. */
export async function recognise(folder: string): Promise<Recognised> {
  const found = await lstat(folder);
  if (!found.isDirectory()) return { is: "not ours" };
  const entries = await readdir(folder);
  if (entries.length === 0) return { is: "begun" };
  const path = join(folder, parts.marker);
  const file = await lstat(path).catch(() => null);
  if (file === null || !file.isFile() || file.size > largestMarker) return { is: "not ours" };
  const text = await readFile(path, "utf8");
  const marker = parsed(text);
  if (marker !== null) return { is: "ours", marker };
  const isBeginning = text.startsWith(`${firstLine}\n`) || `${firstLine}\n`.startsWith(text);
  return { is: isBeginning && entries.length === 1 ? "begun" : "not ours" };
}

function parsed(text: string): Marker | null {
  if (!text.startsWith(`${firstLine}\n`)) return null;
  try {
    return markerSchema.parse(JSON.parse(text.slice(firstLine.length + 1)));
  } catch {
    return null;
  }
}
