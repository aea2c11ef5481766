import type { DataQuery, Severity } from "./data-query.js";
import { timesOf } from "./query-list.js";
import { queryText, sayQuery } from "./words.js";

/** Alike queries: same file, code, column and severity, and the same advice. */
export interface QueryGroup {
  readonly first: DataQuery;
  /** How many doubts there are in all, the first included. */
  readonly times: number;
  /** Rows as the spreadsheet shows them, in the order met, as far as they were kept. */
  readonly rows: readonly number[];
}

const order: Readonly<Record<Severity, number>> = { stop: 0, "set-aside": 1, "look-at": 2 };

/** Alike queries together: what stops the run first, then what sets rows aside; otherwise in the order met. */
export function groupQueries(queries: readonly DataQuery[]): readonly QueryGroup[] {
  const groups = new Map<string, { first: DataQuery; times: number; rows: number[] }>();
  for (const query of queries) {
    const { expected, mend } = sayQuery(query);
    const key = JSON.stringify([query.severity, query.file, query.code, query.column, expected, mend]);
    const group = groups.get(key) ?? { first: query, times: 0, rows: [] };
    group.times += timesOf(query);
    if (query.row !== null) group.rows.push(query.row);
    groups.set(key, group);
  }
  return [...groups.values()].sort((one, other) => order[one.first.severity] - order[other.first.severity]);
}

/** A group in words: its first query, and how many more there are like it. */
export function groupText({ first, times }: QueryGroup): string {
  const more = times - 1;
  if (more === 0) return queryText(first);
  const things = first.row === null ? "" : more === 1 ? " row" : " rows";
  return `${queryText(first)}\n  And ${more} more${things} like it.`;
}
