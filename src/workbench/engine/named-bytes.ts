/** A file in memory. */
export interface NamedBytes {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** What was made as a file in memory. */
export const namedBytesOf = ({
  path,
  content,
}: {
  readonly path: string;
  readonly content: string | Uint8Array;
}): NamedBytes => ({
  name: path,
  bytes: typeof content === "string" ? new TextEncoder().encode(content) : content,
});
