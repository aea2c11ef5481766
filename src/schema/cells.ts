/** One row of a file as text, by column name, with its place in the file. */
export interface CellRow {
  readonly file: string;
  /** Row as the spreadsheet shows it: the header is row 1. */
  readonly row: number;
  readonly cells: Readonly<Record<string, string>>;
}

/** A typed row and where it came from. */
export interface TypedRow<Row> {
  readonly file: string;
  readonly row: number;
  readonly values: Row;
  /** What the file calls a field, where that differs from the field's own name (the single sheet). */
  readonly columnNames?: Readonly<Record<string, string>>;
  /** Optional treatments whose cell is filled and could not be read: null among the values, which is not blank. */
  readonly unread?: readonly string[];
}
