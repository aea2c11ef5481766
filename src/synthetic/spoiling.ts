import type { QueryCode } from "../schema/data-query.js";
import type { SingleSheetRow } from "../schema/single-sheet.js";

/** A row of the sheet as text, blank for nothing. */
export type SheetCells = Readonly<Record<keyof SingleSheetRow, string>>;

/** What a reader should do: take the cell as it is meant, or ask with this query. */
export type Expected = QueryCode | "accepted";

/** One way in which a cell goes wrong. */
export interface Spoiling {
  readonly column: keyof SingleSheetRow;
  /** Rows it can happen to; any when left out. */
  readonly where?: (cells: SheetCells) => boolean;
  readonly write: (cells: SheetCells) => string;
  readonly wrong: string;
  readonly reader: Expected;
}

/** One thing that is wrong with a spoilt sheet. */
export interface Fault {
  /** Row as the spreadsheet shows it, the header being row 1; null for the file. */
  readonly row: number | null;
  readonly column: string | null;
  readonly found: string;
  readonly wrong: string;
  readonly reader: Expected;
}
