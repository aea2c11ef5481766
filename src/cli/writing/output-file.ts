/** A file to be written, its path relative to the folder, with forward slashes. */
export interface OutputFile {
  readonly path: string;
  readonly content: string | Uint8Array;
}
