import Papa from "papaparse";
import { delimiterLine } from "../text/delimiter-line.js";
import { type Delimiter, delimiters } from "../text/header.js";
import { evenLineEnds } from "../text/line-ends.js";
import { isBlankCell } from "./grid.js";

/** How much of a text is looked at, characters and rows. */
const looked = { characters: 200_000, rows: 300 } as const;

/** A text without the line that names its delimiter, and what that line says. */
export function takeDelimiterLine(text: string): {
  readonly text: string;
  readonly stated: Delimiter | null;
} {
  const line = delimiterLine.exec(text);
  if (line === null) return { text, stated: null };
  const stated = delimiters.find((delimiter) => delimiter === line[1]) ?? null;
  return { text: text.slice(line[0].length), stated };
}

/**
 * The delimiter under which most rows have the same number of columns, whatever the columns are called.
 *
 * Each delimiter is tried on the first rows. Its weight is (share of rows that have its commonest number of columns,
 * two or more) x log2(1 + that number): decimal commas and lists within cells come in uneven numbers, and are fewer
 * than columns. Comma where nothing speaks for any. The rule is common practice, no source.
 */
export function delimiterByEvidence(text: string): Delimiter {
  const sample = wholeLines(text);
  let best: { delimiter: Delimiter; weight: number } = { delimiter: ",", weight: 0 };
  for (const delimiter of delimiters) {
    const weight = evidenceFor(delimiter, sample);
    if (weight > best.weight) best = { delimiter, weight };
  }
  return best.delimiter;
}

function wholeLines(text: string): string {
  const start = text.slice(0, looked.characters).replaceAll(/\r\n?/g, "\n");
  if (text.length <= looked.characters) return start;
  const end = start.lastIndexOf("\n");
  return end === -1 ? start : start.slice(0, end);
}

function evidenceFor(delimiter: Delimiter, sample: string): number {
  const { data } = Papa.parse<string[]>(sample, { delimiter, newline: "\n", preview: looked.rows });
  const rows = data.filter((cells) => !cells.every(isBlankCell));
  // under a delimiter that is not the one, quotation marks soon close nowhere: rows from there on speak for nothing
  const even = evenLineEnds(sample, delimiter);
  const sound = "openedInRow" in even ? rows.slice(0, even.openedInRow - 1) : rows;
  const byCount = new Map<number, number>();
  for (const { length } of sound) byCount.set(length, (byCount.get(length) ?? 0) + 1);
  let weight = 0;
  for (const [columns, times] of byCount) {
    if (columns >= 2) weight = Math.max(weight, (times / rows.length) * Math.log2(1 + columns));
  }
  return weight;
}
