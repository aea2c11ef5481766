import type { DataQuery, FileCode } from "../../schema/data-query.js";
import type { SourceFile } from "../text/source-file.js";

type Named = Pick<SourceFile, "table" | "file">;

/** What is the matter with the choice of files, before any is opened: none, two of a kind, two forms at once. */
export function questionsAboutFiles(sources: readonly Named[]): readonly DataQuery[] {
  const sheet = sources.find(({ table }) => table === "single_sheet");
  const linked = sources.filter(({ table }) => table !== "single_sheet");
  const second = sources.filter(({ table }, i) => sources.findIndex((other) => other.table === table) < i);
  const queries = second.map(({ table, file }) => stop("table-twice", { file, facts: { table } }));
  if (sheet !== undefined && linked.length > 0)
    queries.push(stop("tables-mixed", { file: sheet.file, facts: {} }));
  if (sheet === undefined && !linked.some(({ table }) => table === "injuries")) {
    queries.push(stop("table-missing", { file: "data", facts: {} }));
  }
  return queries;
}

const stop = (code: FileCode, about: Pick<DataQuery, "file" | "facts">): DataQuery => ({
  ...about,
  code,
  severity: "stop",
  row: null,
  column: null,
  found: null,
  injury: null,
});
