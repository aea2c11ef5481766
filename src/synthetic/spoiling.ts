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
  /** Row as the spreadsheet shows it, the header being row 1; null for a whole column or the file. */
  readonly row: number | null;
  readonly column: string | null;
  readonly found: string;
  readonly wrong: string;
  readonly reader: Expected;
}

/** `2024-04-03` as `03.04.2024`. */
export const asDayFirst = (date: string, mark = "."): string => date.split("-").reverse().join(mark);

/** `03.04.2024` as `2024-04-03`. */
export const fromDayFirst = (date: string, mark = "."): string => date.split(mark).reverse().join("-");
