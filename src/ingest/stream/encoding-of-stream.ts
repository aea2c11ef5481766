import { decodeText, utf16By, windows1252 } from "../text/decode-text.js";

/** The bytes of a file in chunks; each call begins at the start. */
export type OpenChunks = () => AsyncIterable<Uint8Array>;

/** What a stream of bytes is to be decoded by, or what it seems to be instead of text. */
export type EncodingOfStream =
  | { readonly encoding: "utf-8" | "utf-16le" | "utf-16be" | "windows-1252"; readonly bytes: number }
  | { readonly notText: string }
  | "empty";

export type Decodable = Extract<EncodingOfStream, { readonly encoding: string }>;

/** So much of the beginning tells what kind of file it is, bytes. */
const beginning = 65_536;

/**
 * Looks through a whole stream for its encoding: UTF-16 and what is no text show in the beginning, but one byte
 * anywhere can tell that a file is not UTF-8, and then it is read as Windows-1252 from its start.
 */
export async function encodingOfStream(open: OpenChunks): Promise<EncodingOfStream> {
  const head = new Uint8Array(beginning);
  const utf8 = utf8Decoder({ fatal: true });
  let bytes = 0;
  let isUtf8 = true;
  for await (const chunk of open()) {
    if (bytes < beginning) head.set(chunk.subarray(0, beginning - bytes), bytes);
    bytes += chunk.length;
    isUtf8 &&= (!utf8.isHolding() && isAscii(chunk)) || succeeds(() => utf8.decode(chunk));
  }
  isUtf8 &&= succeeds(utf8.finish);
  const start = withoutHalfCharacter(head.subarray(0, bytes));
  const kind = decodeText(start);
  if ("notText" in kind) return kind;
  if (bytes <= beginning && kind.text.trim() === "") return "empty";
  return { encoding: utf16By(start) ?? (isUtf8 ? "utf-8" : "windows-1252"), bytes };
}

/** Whether no byte has its high bit set: looked at by fours, since decoding to find out takes far longer. */
function isAscii(bytes: Uint8Array): boolean {
  const { buffer, byteOffset, length } = bytes;
  const hasNoHighBit = (byte: number): boolean => byte < 0x80;
  const from = -byteOffset & 3;
  if (length < from + 4) return bytes.every(hasNoHighBit);
  const words = new Uint32Array(buffer, byteOffset + from, (length - from) >> 2);
  let seen = 0;
  for (let i = 0; i < words.length; i++) seen |= words[i]!;
  const edges = [...bytes.subarray(0, from), ...bytes.subarray(from + 4 * words.length)];
  return (seen & 0x80808080) === 0 && edges.every(hasNoHighBit);
}

function succeeds(work: () => unknown): boolean {
  try {
    work();
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

/** Decodes a stream chunk by chunk; what the stream ends with is told at the end. */
export interface StreamDecoder {
  readonly decode: (chunk: Uint8Array) => string;
  readonly finish: () => string;
}

/** The decoder of a stream in an encoding. */
export function streamDecoder(encoding: Decodable["encoding"]): StreamDecoder {
  if (encoding === "windows-1252") return { decode: windows1252, finish: () => "" };
  if (encoding === "utf-8") return utf8Decoder({ fatal: false });
  const decoder = new TextDecoder(encoding);
  return { decode: (chunk) => decoder.decode(chunk, { stream: true }), finish: () => decoder.decode() };
}

const noBytes = new Uint8Array(0);

/**
 * Holds back the bytes of an unfinished character itself: engines decode whole pieces several times faster than with
 * their own `stream`.
 */
function utf8Decoder({ fatal }: { readonly fatal: boolean }): StreamDecoder & {
  /** Whether the bytes so far end within a character. */
  readonly isHolding: () => boolean;
} {
  const first = new TextDecoder("utf-8", { fatal });
  // a byte order mark means itself only at the start
  const later = new TextDecoder("utf-8", { fatal, ignoreBOM: true });
  let held = noBytes;
  let decoder = first;
  return {
    decode: (chunk) => {
      const bytes = held.length === 0 ? chunk : joined(held, chunk);
      const whole = bytes.length - unfinished(bytes);
      held = bytes.slice(whole);
      const text = decoder.decode(bytes.subarray(0, whole));
      if (whole > 0) decoder = later;
      return text;
    },
    finish: () => decoder.decode(held),
    isHolding: () => held.length > 0,
  };
}

function joined(one: Uint8Array, other: Uint8Array): Uint8Array {
  const both = new Uint8Array(one.length + other.length);
  both.set(one);
  both.set(other, one.length);
  return both;
}

/** How many bytes at the end begin a character that needs more of them: 0 to 3 (RFC 3629, section 3). */
function unfinished(bytes: Uint8Array): number {
  for (let back = 1; back <= Math.min(3, bytes.length); back++) {
    const byte = bytes[bytes.length - back]!;
    if (byte < 0x80) return 0;
    if (byte < 0xc0) continue;
    const needed = byte >= 0xf0 ? 4 : byte >= 0xe0 ? 3 : 2;
    return back < needed ? back : 0;
  }
  return 0;
}
