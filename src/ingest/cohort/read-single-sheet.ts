import type { TypedRow } from "../../schema/cells.js";
import type { QueryList } from "../../schema/query-list.js";
import { checkRow } from "../../schema/rules/row-rule.js";
import { rowRules } from "../../schema/rules/row-rules.js";
import type { SingleSheetRow } from "../../schema/single-sheet.js";
import { tables } from "../../schema/tables.js";
import { injuryTwice } from "../rules/injury-twice.js";
import { injuriesByName, notBeforeInjury } from "../rules/set-aside.js";
import { type CheckedRows, checkRows, type ReadingContext } from "../table/check-rows.js";
import { closeLedger, type RowCheck, rowsThatPass } from "../table/ledger.js";
import type { ReadFile } from "../text/rows-of-file.js";
import type { ReadTables } from "./read-linked-tables.js";
import { queriesAboutSheetRow, type UnfoldedSheet, unfoldRows } from "./unfold-single-sheet.js";

/** The single sheet: unfolded into linked tables; a row is used with all its parts, or set aside with all of them. */
export function readSingleSheet(
  file: ReadFile,
  { context, queries }: { readonly context: ReadingContext; readonly queries: QueryList },
): ReadTables {
  const sheet = checkRows(file, { table: tables.single_sheet, rules: [], context, queries });
  const used = unfoldUsed(sheet, { context, queries });
  return {
    tables: { ...used, visits: [], sites: [], personIds: context.personIds ?? "per_site" },
    accounts: [closeLedger(sheet.ledger, used.injuries.length)],
  };
}

/** The rows of a sheet that can be used with all their parts; the others go into its ledger. */
export function unfoldUsed(
  { rows, ledger }: CheckedRows<SingleSheetRow>,
  { context, queries }: { readonly context: ReadingContext; readonly queries: QueryList },
): Omit<UnfoldedSheet, "queries"> {
  const unfolded = unfoldRows(rows);
  const check = checkOf(unfolded, context);
  const used = new Set(rowsThatPass(rows, { check, ledger, queries }).map(({ row }) => row));
  const ofUsedRows = <Row>(parts: readonly TypedRow<Row>[]) => parts.filter(({ row }) => used.has(row));
  return {
    injuries: ofUsedRows(unfolded.injuries),
    treatments: ofUsedRows(unfolded.treatments),
    imaging: ofUsedRows(unfolded.imaging),
  };
}

/**
 * Every query about the parts of a row: the parts against themselves, and their dates against the injury. Rows are to
 * be checked in their order: the queries of all rows at once may not fit into memory.
 */
function checkOf(
  { injuries, treatments, imaging }: Omit<UnfoldedSheet, "queries">,
  context: ReadingContext,
): RowCheck<SingleSheetRow> {
  const byName = injuriesByName(injuries);
  const startsAfterInjury = notBeforeInjury<(typeof treatments)[number]["values"]>(byName, "start_date");
  const scanAfterInjury = notBeforeInjury<(typeof imaging)[number]["values"]>(byName, "date");
  const isTwice = injuryTwice(injuries, context.personIds ?? "per_site");
  const injuriesOf = inOrder(injuries);
  const treatmentsOf = inOrder(treatments);
  const imagingOf = inOrder(imaging);
  return (row) => {
    const own = injuriesOf(row.row);
    const episodes = treatmentsOf(row.row);
    const readings = imagingOf(row.row);
    return [
      ...queriesAboutSheetRow(row),
      ...own.flatMap((one) => [...isTwice(one)]),
      ...own.flatMap((one) => checkRow(one, { rules: rowRules.injuries, context })),
      ...episodes.flatMap((one) => checkRow(one, { rules: rowRules.treatments, context })),
      ...episodes.flatMap((one) => [...startsAfterInjury(one)]),
      ...readings.flatMap((one) => checkRow(one, { rules: rowRules.imaging, context })),
      ...readings.flatMap((one) => [...scanAfterInjury(one)]),
    ];
  };
}

/** The parts of a row, asked for row after row in the order of the parts. */
function inOrder<Part extends { readonly row: number }>(
  parts: readonly Part[],
): (row: number) => readonly Part[] {
  let at = 0;
  return (row) => {
    const from = at;
    while (parts[at]?.row === row) at += 1;
    return parts.slice(from, at);
  };
}
