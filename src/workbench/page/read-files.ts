import type { NamedBytes } from "../engine/tasks.js";

/** A file that somebody has chosen, as the engine takes it. */
export const readFile = async (file: File): Promise<NamedBytes> => ({
  name: file.name,
  bytes: new Uint8Array(await file.arrayBuffer()),
});

export const readAll = (files: FileList | readonly File[]): Promise<readonly NamedBytes[]> =>
  Promise.all([...files].map(readFile));
