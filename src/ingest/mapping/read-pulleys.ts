import * as terms from "../../schema/terms.js";
import { readWords } from "./cell-words.js";
import { cleanCell } from "./look-alikes.js";
import { plainWords } from "./plain-words.js";

/** The pulleys a cell names, and the extent of each where it gives one for each. */
export interface PulleysRead {
  readonly pulleys: readonly string[];
  readonly extents: readonly string[] | null;
}

const span = /[ac][1-5]\s*[-–—]\s*[ac]?[1-5]/i;
const bareNumber = /([ac])([1-5])((?:\s*[/+&,|]\s*[1-5](?!\d))+)/gi;
const pulleyName = /^[ac][1-5]$/;

/**
 * Reads "A2", "A2/A3", "A2+3", "a2 (partial)", "A2 complete, A3 partial"; null for what could mean two things
 * (A2-A4: two pulleys, or three?) or says more than pulleys and extents.
 */
export function readPulleys(cell: string): PulleysRead | null {
  const { text } = cleanCell(cell);
  if (span.test(text)) return null;
  const written = text.replaceAll(
    bareNumber,
    (_, letter: string, first: string, more: string) =>
      `${letter}${first} ${more.replaceAll(/[^1-5]/g, "").replaceAll(/[1-5]/g, (number) => `${letter}${number} `)}`,
  );
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
