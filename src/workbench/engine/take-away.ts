import { type Zippable, zipSync } from "fflate";

/** The day that stands beside every file of the archive: no clock enters. */
const noDay = new Date(1980, 0, 1);

/** Files as one archive, in order of their names; the same files give the same bytes. */
export function archiveOf(
  files: readonly { readonly path: string; readonly content: string | Uint8Array }[],
): Uint8Array {
  const entries = [...files]
    .sort((one, other) => (one.path < other.path ? -1 : 1))
    .map(({ path, content }) => [
      path,
      typeof content === "string" ? new TextEncoder().encode(content) : content,
    ]);
  return zipSync(Object.fromEntries(entries) as Zippable, { mtime: noDay, level: 6 });
}
