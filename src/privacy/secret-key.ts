import { counted } from "../schema/counted.js";
/** 256 random bits; whoever has them can tell which original stands behind a name or a shifted date. */
export type SecretKey = Uint8Array;

/** Length of the key in bytes. */
export const keyBytes = 32;

const firstLine = "pulley-outcomes key 1";

/** The text of a key file: one line that says what it is, the key in hexadecimal digits, and a warning. */
export function keyText(key: SecretKey): string {
  assertKey(key);
  const digits = [...key].map((byte) => byte.toString(16).padStart(2, "0")).join("");
  return `${firstLine}\n${digits}\nKeep this file at the site, apart from every shared copy. Whoever has it can reverse the keyed names.\n`;
}

/**
 * Reads the text of a key file.
 *
 * @returns the key, or what is wrong with it as the end of a sentence; that never repeats a text of the file
 */
export function readKeyText(text: string): { readonly key: SecretKey } | { readonly fault: string } {
  const [first = "", digits = ""] = text.replaceAll("\r\n", "\n").split("\n");
  if (first !== firstLine) return { fault: "is not a key file of this toolkit" };
  if (!/^(?:[0-9a-f]{2})*$/.test(digits)) {
    return { fault: "does not have a key of the digits 0 to 9 and a to f in its second line" };
  }
  const key = Uint8Array.from(digits.match(/../g) ?? [], (pair) => Number.parseInt(pair, 16));
  const fault = faultOf(key);
  return fault === null ? { key } : { fault };
}

/** @throws Error where it is no random key of 32 bytes: whoever calls has made or read it */
export function assertKey(key: SecretKey): void {
  const fault = faultOf(key);
  if (fault !== null) throw new Error(`The key ${fault}.`);
}

/** Of 32 random bytes fewer than 16 are different in one of 1e15 keys. */
const fewestDifferent = 16;

function faultOf(key: SecretKey): string | null {
  if (key.length !== keyBytes)
    return `contains ${counted(key.length, "byte", "bytes")}, but ${keyBytes} are needed`;
  if (new Set(key).size >= fewestDifferent) return null;
  return "was not made at random: it repeats the same few bytes, so that it could be guessed";
}
