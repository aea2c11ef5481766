/** Bytes as text with the encoding they were read by, or what the file seems to be instead. */
export type DecodedText =
  | { readonly text: string; readonly encoding: "utf-8" | "utf-16" | "windows-1252" }
  | { readonly notText: string };

const signatures: readonly (readonly [readonly number[], string])[] = [
  [[0x50, 0x4b, 0x03, 0x04], "it is a spreadsheet file (xlsx, ods) or another zip archive"],
  [[0xd0, 0xcf, 0x11, 0xe0], "it is a spreadsheet file of an older kind (xls)"],
  [[0x25, 0x50, 0x44, 0x46], "it is a PDF file"],
  [[0x1f, 0x8b], "it is a compressed file"],
  [[0x89, 0x50, 0x4e, 0x47], "it is a picture"],
  [[0xff, 0xd8, 0xff], "it is a picture"],
];

/** How much of a text is looked at for control characters, and how many are too many. */
const looked = 100_000;
const tooManyControls = 0.01;

/**
 * Bytes to text: UTF-8 with or without byte order mark, UTF-16 by its mark or by the places of its zero bytes,
 * otherwise Windows-1252.
 * A file with NUL bytes, with many control characters, or with the signature of another format is not text.
 */
export function decodeText(bytes: Uint8Array): DecodedText {
  const signature = signatures.find(([start]) => start.every((byte, i) => bytes[i] === byte));
  if (signature !== undefined) return { notText: signature[1] };
  const decoded = decodeBytes(bytes);
  if (decoded.text.includes("\0")) return { notText: "it contains NUL bytes" };
  if (shareOfControls(decoded.text) > tooManyControls) return { notText: "it is mostly control characters" };
  return decoded;
}

function decodeBytes(bytes: Uint8Array): Extract<DecodedText, { text: string }> {
  const utf16 = utf16By(bytes);
  if (utf16 !== null) return { text: new TextDecoder(utf16).decode(bytes), encoding: "utf-16" };
  try {
    return { text: new TextDecoder("utf-8", { fatal: true }).decode(bytes), encoding: "utf-8" };
  } catch {
    return { text: windows1252(bytes), encoding: "windows-1252" };
  }
}

/** Bytes looked at for the order of UTF-16, an even number. */
const lookedForOrder = 4_000;
/** In less nothing is evident. */
const fewestPairs = 8;
/** Shares of zero bytes: at least so many in the places of high bytes, at most so many in those of low bytes. */
const zeros = { atLeast: 0.4, atMost: 0.05 } as const;

/**
 * The order of UTF-16: by the byte order mark, or evident where the letters of European languages leave every other
 * byte zero and the bytes between them not. Null for anything else.
 */
export function utf16By(bytes: Uint8Array): "utf-16le" | "utf-16be" | null {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return "utf-16le";
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return "utf-16be";
  const start = bytes.subarray(0, lookedForOrder);
  const pairs = start.length >> 1;
  if (pairs < fewestPairs) return null;
  const counts = [0, 0];
  for (let i = 0; i < pairs * 2; i++) if (start[i] === 0) counts[i & 1]! += 1;
  const [even, odd] = counts.map((count) => count / pairs) as [number, number];
  if (odd >= zeros.atLeast && even <= zeros.atMost) return "utf-16le";
  return even >= zeros.atLeast && odd <= zeros.atMost ? "utf-16be" : null;
}

/** 0x80 to 0x9f of Windows-1252 (WHATWG Encoding Standard); the rest is as in Latin-1. */
const upperControls = "€\u0081‚ƒ„…†‡ˆ‰Š‹Œ\u008dŽ\u008f\u0090‘’“”•–—˜™š›œ\u009džŸ";

/** Own table, since some engines decode this range as Latin-1. */
export function windows1252(bytes: Uint8Array): string {
  const latin1 = new TextDecoder("latin1").decode(bytes);
  return latin1.replaceAll(/[\u0080-\u009f]/g, (character) => upperControls[character.charCodeAt(0) - 0x80]!);
}

function shareOfControls(text: string): number {
  const start = text.slice(0, looked);
  let controls = 0;
  for (let i = 0; i < start.length; i++) {
    const code = start.charCodeAt(i);
    const isSpace = code === 9 || code === 10 || code === 13;
    if ((code < 32 && !isSpace) || (code >= 127 && code < 160)) controls += 1;
  }
  return start.length === 0 ? 0 : controls / start.length;
}
