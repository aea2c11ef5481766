import { foundText } from "../../../schema/ask.js";
import type { DataQuery, FileCode, MappingCode } from "../../../schema/data-query.js";
import type { QueryList } from "../../../schema/query-list.js";

/** Asks about a file that is read by a mapping. */
export type AskMapping = (
  query: Pick<DataQuery, "severity"> & { readonly code: MappingCode | FileCode } & Partial<
      Pick<DataQuery, "row" | "column" | "found" | "facts">
    >,
) => void;

/** Asks about one file, into a list; columns go by their names in the file. */
export const askerAboutMapping =
  (file: string, queries: QueryList): AskMapping =>
  ({ code, severity, row = null, column = null, found = null, facts = {} }) =>
    queries.add({
      code,
      severity,
      file,
      row,
      column: column === null ? null : foundText(column),
      found: found === null ? null : foundText(found),
      facts,
      injury: null,
    });
