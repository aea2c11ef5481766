import { decodeText, utf16By, windows1252 } from "../decode-text.js";

/** The bytes of a file in chunks; each call begins at the start. */
export type OpenChunks = () => AsyncIterable<Uint8Array>;

/** What a stream of bytes is to be decoded by, or what it seems to be instead of text. */
export type EncodingOfStream =
  | { readonly encoding: "utf-8" | "utf-16le" | "utf-16be" | "windows-1252"; readonly bytes: number }
  | { readonly notText: string }
  | "empty";

/** So much of the beginning tells what kind of file it is, bytes. */
const beginning = 65_536;

/**
 * Looks through a whole stream for its encoding: UTF-16 and what is no text show in the beginning, but one byte
 * anywhere can tell that a file is not UTF-8, and then it is read as Windows-1252 from its start.
 */
export async function encodingOfStream(open: OpenChunks): Promise<EncodingOfStream> {
  const head = new Uint8Array(beginning);
  const utf8 = new TextDecoder("utf-8", { fatal: true });
  let bytes = 0;
  let isUtf8 = true;
  for await (const chunk of open()) {
    if (bytes < beginning) head.set(chunk.subarray(0, beginning - bytes), bytes);
    bytes += chunk.length;
    isUtf8 &&= decodes(utf8, chunk);
  }
  isUtf8 &&= decodes(utf8, null);
  const start = withoutHalfCharacter(head.subarray(0, bytes));
  const kind = decodeText(start);
  if ("notText" in kind) return kind;
  if (bytes <= beginning && kind.text.trim() === "") return "empty";
  const encoding = utf16By(start) ?? (isUtf8 ? "utf-8" : "windows-1252");
  return { encoding, bytes };
}

function decodes(decoder: InstanceType<typeof TextDecoder>, chunk: Uint8Array | null): boolean {
  try {
    if (chunk === null) decoder.decode();
    else decoder.decode(chunk, { stream: true });
    return true;
  } catch {
    return false;
  }
}

/** The head may end within a character: what follows its last ASCII byte is left out. */
function withoutHalfCharacter(head: Uint8Array): Uint8Array {
  const last = head.findLastIndex((byte) => byte < 0x80);
  return last === -1 ? head : head.subarray(0, last + 1);
}

/** The decoder of a stream, which keeps half a character until the next chunk. */
export function streamDecoder(
  encoding: Extract<EncodingOfStream, { encoding: string }>["encoding"],
): (chunk: Uint8Array) => string {
  if (encoding === "windows-1252") return windows1252;
  const decoder = new TextDecoder(encoding);
  return (chunk) => decoder.decode(chunk, { stream: true });
}
