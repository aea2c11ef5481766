import { alternatives, phrasesOfAll } from "../../schema/languages/alternatives.js";
import { readWords } from "./cell-words.js";
import { plainWords } from "./plain-words.js";

/** How a site counts fingers: with the thumb 4 is the ring finger, without it the little finger. */
export type FingerCount = "with_thumb" | "without_thumb";

const counted: Readonly<Record<FingerCount, readonly string[]>> = {
  with_thumb: ["thumb", "index", "middle", "ring", "little"],
  without_thumb: ["index", "middle", "ring", "little"],
};
const roman: Readonly<Record<string, number>> = { i: 1, ii: 2, iii: 3, iv: 4, v: 5 };
const before = alternatives(phrasesOfAll(({ finger_number }) => finger_number));
const behind = alternatives(phrasesOfAll(({ dates }) => dates.ordinals));
const numbered = new RegExp(String.raw`\b(?:${before})\s*([1-5]|i{1,3}|iv|v)\b`);
const ordinal = new RegExp(String.raw`\b([1-5])(?:${behind})?\b`);
const bareRoman = /\b(i{1,3}|iv|v)\b/;

/** The number by which a cell names a finger ("D4", "digit IV", "4th finger", "left 4"), or null. */
export function fingerNumber(cell: string): number | null {
  const words = plainWords(cell);
  const [, found] = numbered.exec(words) ?? ordinal.exec(words) ?? bareRoman.exec(words) ?? [];
  return found === undefined ? null : (roman[found] ?? Number(found));
}

/** The finger of a counted number; null for a fifth finger without the thumb. */
export const fingerCounted = (number: number, count: FingerCount): string | null =>
  counted[count][number - 1] ?? null;

/** A cell with the number of the finger taken out, for what else it says ("left D4" leaves "left"). */
export const withoutFingerNumber = (cell: string): string =>
  plainWords(cell)
    .replace(numbered, " ")
    .replace(ordinal, " ")
    .replace(/\b(?:iii?|iv|v)\b/, " ")
    .trim();

/** The finger a cell names, in words or by a number counted as the site counts; null where it is not plain which. */
export function readFinger(cell: string, count: FingerCount | undefined): string | null {
  const { terms, unknown } = readWords(cell, { kind: "finger", beside: ["hand"] });
  const meant = new Set(terms.flatMap((each) => [...each]));
  const number = fingerNumber(cell);
  if (number === null) return unknown.length === 0 && meant.size === 1 ? [...meant][0]! : null;
  const rest = readWords(withoutFingerNumber(cell), { kind: "finger", beside: ["hand"] });
  if (count === undefined || rest.unknown.length > 0) return null;
  const counted = fingerCounted(number, count);
  const named = new Set(rest.terms.flatMap((each) => [...each]));
  return named.size === 0 || (named.size === 1 && counted !== null && named.has(counted)) ? counted : null;
}
