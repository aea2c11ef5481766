import { mailSign } from "./patterns.js";
import { scanText } from "./scan-text.js";

/** What a pseudonym should not be made of. */
export type SpeakingPseudonym =
  | "e-mail address"
  | "name"
  | "initials"
  | "initials and date of birth"
  | "date of birth"
  | "number of a record";

const isDayOrYear = (digits: string): boolean => {
  if (digits.length === 4) return /^(?:19[2-9]\d|20[01]\d)$/.test(digits);
  const orders = [
    [0, 2],
    [2, 0],
    [digits.length - 2, digits.length - 4],
    [digits.length - 4, digits.length - 2],
  ] as const;
  return orders.some(([day, month]) => between(digits, day, 31) && between(digits, month, 12));
};
const between = (digits: string, at: number, most: number): boolean => {
  const value = Number(digits.slice(at, at + 2));
  return value >= 1 && value <= most;
};
/** A date in figures, or a year of birth; separators left out. */
const isBirth = (text: string): boolean => {
  const digits = text.replaceAll(/[._/ -]/g, "");
  return /^(?:\d{4}|\d{6}|\d{8})$/.test(digits) && isDayOrYear(digits);
};

/** Words that sites put before a number; they name nobody. */
const plainWords = new Set(
  "person patient pat id case subject proband pulley finger climber study site anon test sample unknown control".split(
    " ",
  ),
);

/**
 * Whether a pseudonym tells who it stands for: an e-mail address, a name, initials, a date of birth, the number of a
 * record. It asks, it cannot know: a fanciful code word looks like a name.
 *
 * @returns what it looks like; null for a pseudonym that says nothing, such as `P09` or `site-a-014`
 * @example
 * scanPseudonym("AB 12.03.1988") // => "initials and date of birth"
 */
export function scanPseudonym(id: string): SpeakingPseudonym | null {
  const text = id.trim();
  if (mailSign.test(text) && scanText(text).some(({ kind }) => kind === "e-mail address")) {
    return "e-mail address";
  }
  const parts = /^(\p{L}{0,3}?)([._ -]?)(\d[\d._/ -]*)(?:[._ -]?(\p{L}{1,3}))?$/u.exec(text);
  if (parts !== null) {
    const [, before = "", , digits = "", after = ""] = parts;
    const letters = before.length + after.length;
    const separated = digits.replaceAll(/\D/g, "");
    if (letters >= 2 && isBirth(digits)) return "initials and date of birth";
    if (letters === 0 && separated.length !== 4 && isBirth(digits)) return "date of birth";
    if (letters === 0 && separated.length >= 7) return "number of a record";
    return null;
  }
  if (/^(?:\p{Lu}\.?){2,3}$/u.test(text) || /^(?:\p{L}\.){2,3}$/u.test(text)) return "initials";
  return isName(text) ? "name" : null;
}

/** Words of letters only, at least one of three letters or more that has a vowel and is no word for a person. */
function isName(text: string): boolean {
  if (/\d/.test(text)) return false;
  const words = text.split(/[\s,._-]+/u).filter((word) => word !== "");
  if (!words.every((word) => /^[\p{L}\p{M}'’]+$/u.test(word))) return false;
  return words.some((word) => {
    const small = word.toLowerCase();
    return (
      word.length >= 3 && /[aeiouyäöüáéíóúàèìòùâêîôûæøåаеиоуыэюя]/u.test(small) && !plainWords.has(small)
    );
  });
}
