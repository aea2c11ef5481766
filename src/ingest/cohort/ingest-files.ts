import { assertAccountBalances, type RowAccount } from "../../schema/accounting.js";
import type { CohortTables } from "../../schema/cohort-tables.js";
import type { DataQuery } from "../../schema/data-query.js";
import { type Keep, queryList } from "../../schema/query-list.js";
import { type LinkContext, linkRows } from "../rules/link-rule.js";
import { linkRules } from "../rules/link-rules.js";
import type { ReadingContext } from "../table/check-rows.js";
import type { Files } from "../text/rows-of-file.js";
import { readLinkedTables } from "./read-linked-tables.js";
import { readSingleSheet } from "./read-single-sheet.js";
import { readVisitSheet } from "./read-visit-sheet.js";

/** What one reading of the files gives. */
export interface IngestedFiles {
  readonly tables: CohortTables;
  readonly accounts: readonly RowAccount[];
  readonly queries: readonly DataQuery[];
}

/** One reading: cells to typed rows, each row against itself, then the tables against one another. */
export function ingestFiles(
  files: Files,
  {
    context,
    link,
    keep,
  }: { readonly context: ReadingContext; readonly link: LinkContext; readonly keep: Keep },
): IngestedFiles {
  const queries = queryList(keep);
  const reading = { context: { ...context, keep }, queries };
  const sheet = files.get("single_sheet");
  const { accounts, tables } =
    sheet === undefined
      ? readLinkedTables(files, reading)
      : sheet.read.oneRow === "visit"
        ? readVisitSheet(sheet, reading)
        : readSingleSheet(sheet, reading);
  const linked = linkRows(tables);
  for (const rule of linkRules) {
    for (const query of rule(linked, link)) queries.add(query);
  }
  for (const account of accounts) assertAccountBalances(account);
  return { tables, accounts, queries: queries.all() };
}
