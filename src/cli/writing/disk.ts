import { lstat, open } from "node:fs/promises";

/** Writes a file that is not there yet, down to the disk. */
export async function writeDurably(
  path: string,
  content: string | Uint8Array,
  { mode = 0o666 }: { readonly mode?: number } = {},
): Promise<void> {
  const file = await open(path, "wx", mode);
  try {
    await file.writeFile(content);
    await file.sync();
  } finally {
    await file.close();
  }
}

/** Brings the names in a folder down to the disk, where the system lets a folder be opened. */
export async function settleNames(folder: string): Promise<void> {
  try {
    const handle = await open(folder, "r");
    await handle.sync().finally(() => handle.close());
  } catch {
    // Windows opens no folders, and some network disks sync none: there the system decides when
  }
}

/** Whether something has that name, be it a link that leads nowhere. */
export const isThere = (path: string): Promise<boolean> =>
  lstat(path).then(
    () => true,
    () => false,
  );
