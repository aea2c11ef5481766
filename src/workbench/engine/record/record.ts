import { type LinkedTableName, linkedTableNames } from "../../../schema/table-names.js";

// A record that is kept as people are treated: rows of text in the linked tables, as they will stand in the file.
// Plain data and pure functions, so that a page, a worker and a store can all hold it.

/** Texts by column; a blank cell may be left out. */
export type Cells = Readonly<Record<string, string>>;

export interface RecordRow {
  /** Tells a row from others as long as the record is open; it is written nowhere. */
  readonly key: number;
  readonly cells: Cells;
}

export interface ClinicRecord {
  readonly rows: Readonly<Record<LinkedTableName, readonly RecordRow[]>>;
  /** Columns of the file that the tables do not know: kept as they are. */
  readonly otherColumns: Readonly<Record<LinkedTableName, readonly string[]>>;
  readonly nextKey: number;
}

const byTable = <T>(value: T): Readonly<Record<LinkedTableName, T>> =>
  Object.fromEntries(linkedTableNames.map((table) => [table, value])) as Record<LinkedTableName, T>;

export const emptyRecord: ClinicRecord = { rows: byTable([]), otherColumns: byTable([]), nextKey: 1 };

/** The tables whose rows name an injury. */
export const tablesOfInjury = ["treatments", "imaging", "visits"] as const satisfies LinkedTableName[];
export type TableOfInjury = (typeof tablesOfInjury)[number];

export const cell = (cells: Cells, column: string): string => (cells[column] ?? "").trim();

export const countRows = ({ rows }: ClinicRecord): number =>
  linkedTableNames.reduce((sum, table) => sum + rows[table].length, 0);

/** The rows of an injury in a table, in the order of the file. */
export const rowsOf = (
  { rows }: ClinicRecord,
  { table, injury }: { readonly table: TableOfInjury; readonly injury: string },
): readonly RecordRow[] => rows[table].filter(({ cells }) => cell(cells, "injury_id") === injury);

/** A row that was taken out, and where it stood. */
export interface RemovedRow {
  readonly table: LinkedTableName;
  readonly row: RecordRow;
  readonly place: number;
}

/** Takes a row out, and with an injury the rows that name it. What was taken out can be put back. */
export function withoutRow(
  record: ClinicRecord,
  { table, key }: { readonly table: LinkedTableName; readonly key: number },
): { readonly record: ClinicRecord; readonly removed: readonly RemovedRow[] } {
  const injury =
    table === "injuries" ? cell(record.rows.injuries.find((row) => row.key === key)!.cells, "injury_id") : "";
  const goes = (of: LinkedTableName, row: RecordRow): boolean =>
    (of === table && row.key === key) ||
    (injury !== "" && of !== "sites" && of !== "injuries" && cell(row.cells, "injury_id") === injury);
  const removed = linkedTableNames.flatMap((of) =>
    record.rows[of].flatMap((row, place) => (goes(of, row) ? [{ table: of, row, place }] : [])),
  );
  const rows = { ...record.rows };
  for (const of of linkedTableNames) rows[of] = rows[of].filter((row) => !goes(of, row));
  return { record: { ...record, rows }, removed };
}

/** Puts rows back where they stood. */
export function withRowsBack(record: ClinicRecord, removed: readonly RemovedRow[]): ClinicRecord {
  const rows = { ...record.rows };
  for (const { table, row, place } of removed)
    rows[table] = [...rows[table].slice(0, place), row, ...rows[table].slice(place)];
  return { ...record, rows };
}
