import type { Dirent, Stats } from "node:fs";

/** What something is, in words. */
export function kindOf(
  found: Pick<
    Stats | Dirent,
    | "isDirectory"
    | "isFile"
    | "isFIFO"
    | "isSocket"
    | "isCharacterDevice"
    | "isBlockDevice"
    | "isSymbolicLink"
  >,
): string {
  if (found.isSymbolicLink()) return "a link";
  if (found.isDirectory()) return "a folder";
  if (found.isFile()) return "a file";
  if (found.isFIFO()) return "a pipe";
  if (found.isSocket()) return "a socket";
  return "a device";
}
