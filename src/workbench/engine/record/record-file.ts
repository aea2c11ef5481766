import { oneLine, tables } from "../../../schema/index.js";
import { InputError } from "../../../schema/input-error.js";
import { type LinkedTableName, linkedTableNames } from "../../../schema/table-names.js";
import type { Table } from "../../../schema/tables.js";
import type { Plan } from "../../../study/plan.js";
import { writeWorkbook } from "../../../workbook/write-workbook.js";
import { newPlan } from "../study-draft.js";
import type { ClinicRecord } from "./record.js";

/** A record that cannot be opened or saved as it is. */
export class RecordError extends InputError {
  override readonly name = "RecordError";
}

/** The tables that a record's file holds: the four about injuries always, sites where there are any. */
const tablesIn = ({ rows, otherColumns }: ClinicRecord): readonly LinkedTableName[] =>
  linkedTableNames.filter(
    (table) => table !== "sites" || rows.sites.length > 0 || otherColumns.sites.length > 0,
  );

/** The record as one workbook with a sheet for each table: the linked form, as the command line reads it. */
export const recordFile = (record: ClinicRecord): Promise<Uint8Array> =>
  writeWorkbook(
    tablesIn(record).map((table) => ({
      name: table,
      table: tables[table] as Table,
      rows: record.rows[table].map(({ cells }) => cells),
      others: record.otherColumns[table],
    })),
  );

/** A study of a record: it names the file for each table, and the sheet in it. */
export const planOfRecord = (record: ClinicRecord, file: string): Plan => planFor(tablesIn(record), file);

/** The same for the tables that a file holds. */
export function planFor(held: readonly LinkedTableName[], file: string): Plan {
  return newPlan(
    {
      ...Object.fromEntries(held.map((table) => [table, file])),
      sheets: Object.fromEntries(held.map((table) => [table, table])),
      date_order: "year-first",
    } as Plan["data"],
    [{ name: file }],
  );
}

/** A name for the file of a record, with the ending of a workbook. */
export function fileName(name: string): string {
  const plain = oneLine(name)
    .trim()
    .replace(/\.[^.]*$/, "");
  return `${plain === "" ? "record" : plain}.xlsx`;
}
