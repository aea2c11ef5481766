import type { DataQuery } from "../data-query.js";
import { oneLine } from "../hidden-characters.js";

/**
 * How one kind of query is worded. Only `found` may repeat values of the file: `expected` and `correction` appear in
 * reports, which may leave the site, and are the same for all alike queries.
 */
export interface Wording {
  /** The subject of the sentence; the quoted cell where left out. */
  readonly found?: (query: DataQuery) => string;
  /** The rest of the sentence, without its full stop. */
  readonly expected: (query: DataQuery) => string;
  /** Full sentences: what to write instead, or what to check. */
  readonly correction: (query: DataQuery) => string;
  /** What happens until then, where the usual sentence for the severity does not fit. */
  readonly consequence?: string;
}

/** A wording that says the same whatever the query holds. */
export const plainly = (expected: string, correction: string, rest: Partial<Wording> = {}): Wording => ({
  ...rest,
  expected: () => expected,
  correction: () => correction,
});

const longestQuote = 60;

/** A cell as it may be shown: on one line, with what cannot be seen written out, cut when long. */
export const quoted = (text: string): string => `"${visible(text, longestQuote)}"`;

/** A text of a file as it may be shown: on one line, with what cannot be seen written out, cut when long. */
export function visible(text: string, longest: number): string {
  const characters = [...text.slice(0, 2 * longest + 2)];
  const isLong = characters.length > longest;
  return `${oneLine(characters.slice(0, longest).join(""))}${isLong ? "…" : ""}`;
}

/** A fact of a query as text; empty where it is not given. */
export const fact = ({ facts }: DataQuery, name: string): string => String(facts[name] ?? "");

/** The quoted cell, followed by a remark that holds further values of the file. */
export const foundWith =
  (remark: (query: DataQuery) => string) =>
  (query: DataQuery): string =>
    `${quoted(query.found ?? "")} (${remark(query)})`;
