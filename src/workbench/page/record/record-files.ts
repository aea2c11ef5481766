import type { NamedBytes } from "../../engine/tasks.js";
import { readFile } from "../read-files.js";

// Files of a record on the disk: written to the very file where the browser can do that.

interface FileHandle {
  readonly name: string;
  getFile: () => Promise<File>;
  createWritable: () => Promise<{
    write: (bytes: Uint8Array) => Promise<void>;
    close: () => Promise<void>;
    abort: () => Promise<void>;
  }>;
}

interface Pickers {
  readonly showSaveFilePicker?: (options: unknown) => Promise<FileHandle>;
  readonly showOpenFilePicker?: (options: unknown) => Promise<readonly FileHandle[]>;
}

/** A file that this page may write to, and when it was last written as far as the page knows. */
export interface OpenFile {
  readonly handle: FileHandle;
  readonly lastModified: number;
}

const pickers = globalThis as unknown as Pickers;
const types = [
  {
    description: "Workbook",
    accept: { "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet": [".xlsx"] },
  },
];

export const canWriteFiles = (): boolean => pickers.showSaveFilePicker !== undefined;

/** Somebody closed the window in which a file is chosen. */
const isClosed = (error: unknown): boolean => error instanceof DOMException && error.name === "AbortError";

/** Lets somebody choose the file of a record; null where the choice is broken off. */
export async function pickRecord(): Promise<{ readonly bytes: NamedBytes; readonly file: OpenFile } | null> {
  try {
    const [handle] = await pickers.showOpenFilePicker!({ types });
    if (handle === undefined) return null;
    const file = await handle.getFile();
    return { bytes: await readFile(file), file: { handle, lastModified: file.lastModified } };
  } catch (error) {
    if (isClosed(error)) return null;
    throw error;
  }
}

/** Lets somebody choose where a record is to be kept; null where the choice is broken off. */
export async function pickPlace(suggestedName: string): Promise<OpenFile | null> {
  try {
    const handle = await pickers.showSaveFilePicker!({ types, suggestedName });
    return { handle, lastModified: (await handle.getFile()).lastModified };
  } catch (error) {
    if (isClosed(error)) return null;
    throw error;
  }
}

/** Whether a file was written by somebody else since this page last read or wrote it. */
export const isChangedElsewhere = async ({ handle, lastModified }: OpenFile): Promise<boolean> =>
  (await handle.getFile()).lastModified !== lastModified;

/** Writes a file whole or not at all: the browser puts the new file in the place of the old one when all of it is there. */
export async function writeTo({ handle }: OpenFile, bytes: Uint8Array): Promise<OpenFile> {
  const target = await handle.createWritable();
  try {
    await target.write(bytes);
  } catch (error) {
    await target.abort();
    throw error;
  }
  await target.close();
  return { handle, lastModified: (await handle.getFile()).lastModified };
}
