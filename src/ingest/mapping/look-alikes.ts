/** Letters of other alphabets that look like Latin ones, in the same order as the letters they look like. */
const foreign = "АВЕКМНОРСТУХІЈЅаеорсухіјѕΑΒΕΖΗΙΚΜΝΟΡΤΥΧοа";
const latin = "ABEKMHOPCTYXIJSaeopcyxijsABEZHIKMNOPTYXoa";
const latinOf = new Map([...foreign].map((letter, i) => [letter, latin[i]!]));

const invisible = /[\u00ad\u200b-\u200f\u202a-\u202e\u2060-\u2064\u2066-\u2069\ufeff]/g;
const oddSpace = /[\u00a0\u1680\u2000-\u200a\u202f\u205f\u3000]/g;
const plain = /^[\x20-\x7e]*$/;
const otherAlphabet = /[\p{Script=Cyrillic}\p{Script=Greek}]/u;

/** What was put right in a cell without changing what a reader sees. */
export type Repair = "invisible character" | "odd space" | "look-alike letter";

/** A cell as it looks to a reader, and what had to be put right for that. */
export interface CleanCell {
  readonly text: string;
  readonly repairs: readonly Repair[];
}

const untouched: readonly Repair[] = [];

/**
 * A cell without what no reader sees: characters of no width, no-break and other odd spaces, and Cyrillic or Greek
 * letters among Latin ones or digits (`А2` with a Cyrillic А). Words wholly of another alphabet that have other
 * letters too are left alone. White space at both ends is trimmed and not mentioned.
 */
export function cleanCell(cell: string): CleanCell {
  const trimmed = cell.trim();
  if (plain.test(trimmed)) return { text: trimmed, repairs: untouched };
  const repairs: Repair[] = [];
  const take = (repair: Repair, before: string, after: string): string => {
    if (before !== after) repairs.push(repair);
    return after;
  };
  const seen = take("invisible character", trimmed, trimmed.replaceAll(invisible, ""));
  const spaced = take("odd space", seen, seen.replaceAll(oddSpace, " "));
  const text = take("look-alike letter", spaced, withLatinLetters(spaced));
  return { text: text.trim(), repairs };
}

function withLatinLetters(text: string): string {
  if (!otherAlphabet.test(text)) return text;
  const replaced = [...text].map((letter) => latinOf.get(letter) ?? letter).join("");
  return otherAlphabet.test(replaced) ? text : replaced;
}
