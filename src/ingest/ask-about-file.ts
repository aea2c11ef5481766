import { foundText } from "../schema/ask.js";
import type { DataQuery, FileCode, MappingCode } from "../schema/data-query.js";
import type { QueryList } from "../schema/query-list.js";

/** Asks with one of some codes; hands back the query that was added. */
type Ask<Code extends FileCode | MappingCode> = (
  query: Pick<DataQuery, "severity"> & { readonly code: Code } & Partial<
      Pick<DataQuery, "row" | "column" | "found" | "facts">
    >,
) => DataQuery;

/** Asks about a file as a whole, its header, or the shape of its rows. */
export type AskAboutFile = Ask<FileCode>;

/** Asks about a file that is read by a mapping; columns go by their names in the file. */
export type AskMapping = Ask<FileCode | MappingCode>;

/** Asks about one file, into a list. */
export const askerAboutFile =
  (file: string, queries: QueryList): AskMapping =>
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
