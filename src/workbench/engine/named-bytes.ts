/** A file in memory. */
export interface NamedBytes {
  readonly name: string;
  readonly bytes: Uint8Array;
}
