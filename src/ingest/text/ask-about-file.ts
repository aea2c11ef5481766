import { foundText } from "../../schema/ask.js";
import type { DataQuery, FileCode, MappingCode } from "../../schema/data-query.js";
import type { QueryList } from "../../schema/query-list.js";
import type { EvenText } from "./line-ends.js";
import { longestQuoted } from "./quoted-cells.js";

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

/** Asks about a quotation mark that is not closed as it should be; rows above the text count. */
export const askAboutQuote = (
  { openedInRow, fault }: Extract<EvenText, { openedInRow: number }>,
  { ask, above = 0 }: { readonly ask: AskAboutFile; readonly above?: number },
): DataQuery =>
  ask({
    code: "unbalanced-quote",
    severity: "stop",
    row: above + openedInRow,
    facts: fault === "too long" ? { longest: longestQuoted } : {},
  });
