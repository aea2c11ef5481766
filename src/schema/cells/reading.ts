import { withoutGuards } from "../csv-text.js";
import type { CellCode } from "../data-query.js";

/** What a cell says: a typed value, or why it cannot be taken as it stands. Blank is the value null. */
export type Reading =
  | { readonly value: string | number | readonly string[] | null }
  | { readonly problem: CellCode; readonly facts: Readonly<Record<string, string | number>> };

/** Turns the text of a cell, tidied and not blank, into its reading. */
export type CellReader = (text: string) => Reading;

export const blank: Reading = { value: null };

/** Why a cell cannot be taken as it stands. */
export type CellProblem = Extract<Reading, { readonly problem: CellCode }>;

export const problem = (
  code: CellCode,
  facts: Readonly<Record<string, string | number>> = {},
): CellProblem => ({
  problem: code,
  facts,
});

/** White space, and the space of no width, which `trim` leaves in place. */
const edges = /^[\s\u200b]+|[\s\u200b]+$/gu;

/** Begins and ends with a visible ASCII character, and holds no apostrophe by which spreadsheets are kept from formulas. */
export function hasPlainEdges(cell: string): boolean {
  const first = cell.charCodeAt(0);
  const last = cell.charCodeAt(cell.length - 1);
  return first > 39 && first < 127 && last > 32 && last < 127 && !cell.includes("'");
}

/**
 * The text of a cell without the spaces around it (no-break and zero-width ones included), and without the apostrophes
 * that our own CSV files put before what a spreadsheet would take for a formula.
 */
export function tidy(cell: string): string {
  if (hasPlainEdges(cell)) return cell;
  const text = withoutGuards(cell);
  const trimmed = text.trim();
  return trimmed.includes("\u200b") ? trimmed.replaceAll(edges, "") : trimmed;
}

/** Words by which sheets say that there is no value. */
const wordsForNothing: ReadonlySet<string> = new Set([
  ..."? ?? ??? - -- --- – — . .. ... / *".split(" "),
  ..."n/a na n.a. n.a #n/a nil null none nan nd n.d. k.a. tbd unknown missing blank empty".split(" "),
  ..."#ref! #value! #name? #div/0! #num! #null!".split(" "),
  ...["not recorded", "not known", "not done", "not available", "not applicable", "no data"],
]);

/** Whether a cell says in words that there is no value. */
export const saysNothing = (text: string): boolean =>
  wordsForNothing.has(text.toLowerCase().replaceAll("_", " "));
