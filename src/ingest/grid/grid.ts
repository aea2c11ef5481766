import type { DataQuery } from "../../schema/data-query.js";
import type { DecodedText } from "../text/decode-text.js";
import type { Delimiter } from "../text/header.js";

/** A row of a sheet as text, before anything is known about what its columns mean. */
export interface GridRow {
  /** Row as the spreadsheet shows it, counted from 1. */
  readonly row: number;
  readonly cells: readonly string[];
  /** Hidden in the workbook it came from: read like any other, and mentioned. */
  readonly isHidden: boolean;
}

/** Cells of a workbook joined into one: the first holds the text, the others are blank. */
export interface MergedArea {
  /** Rows as the spreadsheet shows them, counted from 1, both included. */
  readonly firstRow: number;
  readonly lastRow: number;
  /** Places in a row, counted from 0, both included. */
  readonly firstColumn: number;
  readonly lastColumn: number;
}

/** How the bytes of a file were understood. */
export type GridFormat =
  | {
      readonly kind: "delimited";
      readonly delimiter: Delimiter;
      readonly encoding: Extract<DecodedText, { text: string }>["encoding"];
    }
  | { readonly kind: "workbook"; readonly dateEpoch: 1900 | 1904 };

/**
 * A sheet as rows of text, from whatever format it came. Blank rows are left out, their numbers are not given away.
 * Dates and numbers of a workbook stand as `YYYY-MM-DD` and with a decimal point, whatever the workbook shows.
 */
export interface Grid {
  readonly file: string;
  /** Name of the sheet, where the file is a workbook. */
  readonly sheet: string | null;
  readonly rows: readonly GridRow[];
  /** Places of columns that are hidden in the workbook, counted from 0: read like any other, and mentioned. */
  readonly hiddenColumns: readonly number[];
  readonly merged: readonly MergedArea[];
  readonly format: GridFormat;
}

/** A file as a grid with every query about it; null where a query of severity `stop` says why. */
export interface GridRead {
  readonly grid: Grid | null;
  readonly queries: readonly DataQuery[];
}

/** Whether nothing but spaces stands in a cell. */
export const isBlankCell = (cell: string): boolean => cell === "" || cell.trim() === "";
