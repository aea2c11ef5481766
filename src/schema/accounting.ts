import type { DataQuery } from "./data-query.js";

/** Rows of one table: read = used + set aside, always. */
export interface RowAccount {
  readonly table: string;
  readonly file: string;
  readonly read: number;
  readonly used: number;
  /** One entry a row that is not used, with the query that set it aside (the first, if several). */
  readonly setAside: readonly { readonly row: number; readonly query: DataQuery }[];
}

/** The rows read and used from every table, and every doubt about them. */
export interface Accounted {
  readonly accounts: readonly RowAccount[];
  readonly queries: readonly DataQuery[];
}

/** Holds the identity of row accounting, or stops the run: a toolkit that loses a row may not report. */
export function assertAccountBalances({ table, file, read, used, setAside }: RowAccount): void {
  if (read !== used + setAside.length) {
    throw new Error(
      `${file}: row accounting of ${table} does not balance: ${read} rows read, ${used} used, ${setAside.length} set aside. ` +
        "This is a fault of the toolkit, not of the file; no report is written.",
    );
  }
}
