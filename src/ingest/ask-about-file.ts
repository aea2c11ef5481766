import { foundText } from "../schema/ask.js";
import type { DataQuery, FileCode } from "../schema/data-query.js";
import type { QueryList } from "../schema/query-list.js";

/** Asks about a file as a whole, its header, or the shape of its rows; hands back the query that was added. */
export type AskAboutFile = (
  query: Pick<DataQuery, "severity"> & { readonly code: FileCode } & Partial<
      Pick<DataQuery, "row" | "column" | "found" | "facts">
    >,
) => DataQuery;

/** Asks about one file, into a list. */
export const askerAboutFile =
  (file: string, queries: QueryList): AskAboutFile =>
  ({ code, severity, row = null, column = null, found = null, facts = {} }) => {
    const query: DataQuery = {
      code,
      severity,
      file,
      row,
      column: column === null ? null : foundText(column),
      found: found === null ? null : foundText(found),
      facts,
      injury: null,
    };
    queries.add(query);
    return query;
  };
