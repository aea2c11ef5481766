import { type Zippable, zipSync } from "fflate";

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
  // the day that stands beside every file: no clock enters, and an archive holds local time
  const mtime = new Date(1980, 0, 1);
  return zipSync(Object.fromEntries(entries) as Zippable, { mtime, level: 6 });
}
