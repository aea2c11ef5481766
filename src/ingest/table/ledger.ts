import type { RowAccount } from "../../schema/accounting.js";
import type { TypedRow } from "../../schema/cells.js";
import type { DataQuery } from "../../schema/data-query.js";
import type { QueryList } from "../../schema/query-list.js";
import type { RowsOfFile } from "../text/rows-of-file.js";

/** The account of one file while its rows are sorted. */
export interface Ledger {
  readonly table: string;
  readonly file: string;
  readonly read: number;
  readonly unfoldedFrom?: number;
  readonly columnsNotUsed?: RowAccount["columnsNotUsed"] & {};
  /** By row, the first query that set it aside. */
  readonly setAside: Map<number, DataQuery>;
}

/** Opens the account of a file with the rows that reading it has set aside. */
export const openLedger = (
  about: Pick<Ledger, "table" | "file">,
  { read, setAside, unfoldedFrom, columnsNotUsed }: RowsOfFile,
): Ledger => ({
  ...about,
  read,
  ...(unfoldedFrom === undefined ? {} : { unfoldedFrom }),
  ...(columnsNotUsed === undefined ? {} : { columnsNotUsed }),
  setAside: new Map(setAside.map(({ row, query }) => [row, query])),
});

/** What one check asks about one row. */
export type RowCheck<Row> = (row: TypedRow<Row>) => Iterable<DataQuery>;

/**
 * The rows that a check lets through. Every query is kept; the first that sets a row aside goes into the ledger.
 */
export function rowsThatPass<Row>(
  rows: readonly TypedRow<Row>[],
  {
    check,
    ledger,
    queries,
  }: { readonly check: RowCheck<Row>; readonly ledger: Ledger; readonly queries: QueryList },
): readonly TypedRow<Row>[] {
  return rows.filter((row) => {
    let isUsed = true;
    for (const query of check(row)) {
      queries.add(query);
      if (query.severity !== "set-aside") continue;
      isUsed = false;
      if (!ledger.setAside.has(row.row)) ledger.setAside.set(row.row, query);
    }
    return isUsed;
  });
}

/** Closes the account: rows read less those set aside are used. */
export function closeLedger({ setAside, ...about }: Ledger, used: number): RowAccount {
  const rows = [...setAside].map(([row, query]) => ({ row, query }));
  return { ...about, used, setAside: rows.sort((one, other) => one.row - other.row) };
}
