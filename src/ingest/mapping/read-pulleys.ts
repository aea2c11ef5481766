import * as terms from "../../schema/terms.js";
import { readWords } from "./cell-words.js";
import { cleanCell } from "./look-alikes.js";
import { plainWords } from "./plain-words.js";

/** The pulleys a cell names, and the extent of each where it gives one for each. */
export interface PulleysRead {
  readonly pulleys: readonly string[];
  readonly extents: readonly string[] | null;
}

const span = /([ac])([1-5])\s*[-–—]\s*[ac]?([1-5])/gi;
/** Three or more with dashes between them: each is named. */
const chain = /[ac][1-5](?:\s*[-–—]\s*[ac]?[1-5]){2,}/gi;
const bareNumber = /([ac])([1-5])((?:\s*[/+&,|]\s*[1-5](?!\d))+)/gi;
const pulleyName = /^[ac][1-5]$/;

/**
 * Reads "A2", "A2/A3", "A2+3", "a2 (partial)", "A2 complete, A3 partial"; null for what could mean two things
 * (A2-A4: two pulleys, or three?) or says more than pulleys and extents. "A2-A3-A4" names each of them.
 *
 * @param ranges what "A2-A4" means, where a site has said it
 */
export function readPulleys(cell: string, ranges?: Ranges): PulleysRead | null {
  const written = spelledOut(cleanCell(cell).text, ranges);
  if (written === null) return null;
  const words = plainWords(written).split(" ");
  const pulleys = words.filter((word) => pulleyName.test(word)).map((word) => word.toUpperCase());
  if (pulleys.length === 0 || pulleys.some((pulley) => !terms.pulleys.some((known) => known === pulley))) {
    return null;
  }
  const rest = words.map((word) => (pulleyName.test(word) ? "|" : word)).join(" ");
  const parts = rest.split("|").map((part) => readWords(part, { kind: "extent" }));
  if (parts.some(({ unknown }) => unknown.length > 0)) return null;
  return { pulleys, extents: extentsOf(parts.map((part) => part.terms)) };
}

/** What "A2-A4" means at a site: these two, or everything between them as well. */
export type Ranges = "ends" | "between" | "asked";

/** A text in which each pulley is named by itself; null where a range could mean two things and nobody has said which. */
export function spelledOut(text: string, ranges: Ranges | undefined): string | null {
  const named = text.replaceAll(chain, (all) => {
    const letter = all[0]!;
    return (all.match(/[1-5]/g) ?? []).map((number) => `${letter}${number}`).join(" ");
  });
  if (named.match(span) !== null && (ranges === undefined || ranges === "asked")) return null;
  const ranged = named.replaceAll(span, (_, letter: string, first: string, last: string) =>
    ranges === "between"
      ? allBetween(letter, Number(first), Number(last))
      : `${letter}${first} ${letter}${last}`,
  );
  return ranged.replaceAll(
    bareNumber,
    (_, letter: string, first: string, more: string) =>
      `${letter}${first} ${more.replaceAll(/[^1-5]/g, "").replaceAll(/[1-5]/g, (number) => `${letter}${number} `)}`,
  );
}

const allBetween = (letter: string, first: number, last: number): string =>
  Array.from({ length: Math.abs(last - first) + 1 }, (_, i) => `${letter}${Math.min(first, last) + i}`).join(
    " ",
  );

type TermSets = readonly ReadonlySet<string>[];

/** One extent for each pulley, all behind their pulleys or all before them. */
function extentsOf(parts: readonly TermSets[]): readonly string[] | null {
  const behind = parts.slice(1);
  const before = parts.slice(0, -1);
  if (parts[0]!.length === 0 && behind.every((part) => part.length === 1)) return behind.map(onlyTerm);
  if (parts.at(-1)!.length === 0 && before.every((part) => part.length === 1)) return before.map(onlyTerm);
  return null;
}

const onlyTerm = ([meant]: TermSets): string => [...meant!][0]!;

/** Whether a cell says anything about extents. */
export const namesExtent = (cell: string): boolean => readWords(cell, { kind: "extent" }).terms.length > 0;
