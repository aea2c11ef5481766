/** A row of a sheet as text, before anything is known about what its columns mean. */
export interface GridRow {
  /** Row as the spreadsheet shows it, counted from 1. */
  readonly row: number;
  readonly cells: readonly string[];
  /** Hidden in the workbook it came from: read like any other, and mentioned. */
  readonly isHidden: boolean;
}

/**
 * A sheet as rows of text, from whatever format it came. Blank rows are left out, their numbers are not given away.
 * Dates and numbers of a workbook stand as `YYYY-MM-DD` and with a decimal point, whatever the workbook shows.
 */
export interface Grid {
  readonly file: string;
  /** Name of the sheet, where the file is a workbook. */
  readonly sheet: string | null;
  readonly rows: readonly GridRow[];
}
