import { hmac } from "@noble/hashes/hmac.js";
import { sha256 } from "@noble/hashes/sha2.js";
import { assertKey, type SecretKey } from "./secret-key.js";

/** Letters of a keyed name: 96 bits, so that among a million names two alike are all but impossible. */
const lettersOfName = 24;

/** Names and numbers that only the holder of the key can make again. */
export interface KeyedNames {
  /**
   * The name that stands for an original.
   *
   * @param kind what is named, as `person`: the same text in two kinds gives two names that nobody can match
   * @param parts the original, taken apart: site and person
   */
  readonly nameOf: (kind: string, parts: readonly string[]) => string;
  /** A whole number from 0 to `below` - 1 that belongs to an original; below at most 2^32. */
  readonly numberOf: (kind: string, parts: readonly string[], below: number) => number;
}

/**
 * Keyed names by HMAC-SHA-256, the first 96 bits in hexadecimal digits after the first letter of the kind, which keeps
 * a spreadsheet from reading a number. A name can be neither undone nor guessed without the key; with the same key the
 * same original has the same name in every copy, so that copies can be linked with each other.
 *
 * @throws Error when the key is none; when two originals would have the same name
 * @source Krawczyk, Bellare & Canetti 1997, RFC 2104; truncation as in Dang 2012, NIST SP 800-107
 */
export function keyedNames(key: SecretKey): KeyedNames {
  assertKey(key);
  const originals = new Map<string, string>();
  const known = new Map<string, string>();
  const digest = (kind: string, parts: readonly string[]) =>
    hmac(sha256, key, new TextEncoder().encode(JSON.stringify([kind, ...parts])));
  return {
    nameOf: (kind, parts) => {
      const original = JSON.stringify([kind, ...parts]);
      const before = known.get(original);
      if (before !== undefined) return before;
      const digits = [...digest(kind, parts)].map((byte) => byte.toString(16).padStart(2, "0")).join("");
      const name = `${kind.charAt(0)}${digits.slice(0, lettersOfName)}`;
      if (originals.has(name)) {
        throw new Error(
          `Two different ${kind} ids have the same keyed name. Make a new key and write the copy again.`,
        );
      }
      originals.set(name, original);
      known.set(original, name);
      return name;
    },
    numberOf: (kind, parts, below) => {
      const bytes = digest(kind, parts);
      // 48 bits over at most 32: the share of the smaller numbers is too large by less than 1 in 65,536
      const value = bytes.slice(0, 6).reduce((sum, byte) => sum * 256 + byte, 0);
      return value % below;
    },
  };
}
