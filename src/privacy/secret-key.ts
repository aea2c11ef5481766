/** 256 random bits; whoever has them can tell which original stands behind a name or a shifted date. */
export type SecretKey = Uint8Array;

/** Length of the key in bytes. */
export const keyBytes = 32;

const firstLine = "pulley-outcomes key 1";

/** The text of a key file: one line that says what it is, the key in hexadecimal digits, and a warning. */
export function keyText(key: SecretKey): string {
  assertKey(key);
  const digits = [...key].map((byte) => byte.toString(16).padStart(2, "0")).join("");
  return `${firstLine}\n${digits}\nKeep this file at the site, apart from every shared copy. Whoever has it can undo the keyed names.\n`;
}

/** Reads the text of a key file; null where it is none. */
export function readKeyText(text: string): SecretKey | null {
  const [first, digits = ""] = text.replaceAll("\r\n", "\n").split("\n");
  if (first !== firstLine || !/^[0-9a-f]{64}$/.test(digits)) return null;
  return Uint8Array.from(digits.match(/../g)!, (pair) => Number.parseInt(pair, 16));
}

/** @throws Error when the key has not 32 bytes, or all of them are the same */
export function assertKey(key: SecretKey): void {
  if (key.length !== keyBytes || key.every((byte) => byte === key[0])) {
    throw new Error(
      `A key of ${keyBytes} random bytes is needed; found ${key.length} bytes or no randomness.`,
    );
  }
}
