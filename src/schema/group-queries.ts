import { counted } from "./counted.js";
import type { DataQuery, Severity } from "./data-query.js";
import { queryCount } from "./query-list.js";
import { queryText, sayQuery } from "./words.js";

/** Alike queries: same file, code, column and severity, and the same advice. */
export interface QueryGroup {
  readonly first: DataQuery;
  /** How many queries there are in all, the first included. */
  readonly count: number;
  /** Rows as the spreadsheet shows them, in the order met, as far as they were kept. */
  readonly rows: readonly number[];
}

const order: Readonly<Record<Severity, number>> = { stop: 0, "set-aside": 1, "look-at": 2 };

/** Alike queries together: what stops the run first, then what sets rows aside; otherwise in the order met. */
export function groupQueries(queries: readonly DataQuery[]): readonly QueryGroup[] {
  const groups = new Map<string, { first: DataQuery; count: number; rows: number[] }>();
  for (const query of queries) {
    const { expected, correction } = sayQuery(query);
    const key = JSON.stringify([query.severity, query.file, query.code, query.column, expected, correction]);
    const group = groups.get(key) ?? { first: query, count: 0, rows: [] };
    group.count += queryCount(query);
    if (query.row !== null) group.rows.push(query.row);
    groups.set(key, group);
  }
  return [...groups.values()].sort((one, other) => order[one.first.severity] - order[other.first.severity]);
}

/** A group in words: its first query, and how many more there are like it. */
export function groupText({ first, count }: QueryGroup): string {
  const more = count - 1;
  if (more === 0) return queryText(first);
  const others =
    first.row === null ? counted(more, "more query", "more queries") : counted(more, "more row", "more rows");
  return `${queryText(first)}\n  And ${others} like it.`;
}
