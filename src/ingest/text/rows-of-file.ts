import type { ColumnNotUsed } from "../../schema/accounting.js";
import type { CellRow } from "../../schema/cells.js";
import type { DataQuery } from "../../schema/data-query.js";
import type { TableName } from "../../schema/table-names.js";

/** The rows of a file as text. Rows read = rows given + rows set aside; blank rows are not rows. */
export interface RowsOfFile {
  readonly read: number;
  readonly rows: readonly CellRow[];
  readonly setAside: readonly {
    readonly row: number;
    readonly query: DataQuery;
    /** Of a row that has more cells than columns: its cells, which may stand in the wrong columns. */
    readonly cells?: CellRow["cells"];
  }[];
  /** Every query; when one of them has the severity `stop`, nothing was read. */
  readonly queries: readonly DataQuery[];
  /** Of a file in columns of its own: those that are not used. */
  readonly columnsNotUsed?: readonly ColumnNotUsed[];
  /** Where rows of the file held several injuries, each of which is a row here: how many rows the file has. */
  readonly unfoldedFrom?: number;
  /** What a row is, where it is not one of the table: a visit, to be folded into the injury with its other rows. */
  readonly oneRow?: "visit";
  /** Where the file was translated into our columns: its own words. Its dates then stand year first. */
  readonly words?: FileWords;
}

/** A file with its rows as text. */
export interface ReadFile {
  readonly file: string;
  readonly read: RowsOfFile;
  /** Rows that the site wants left out: among those set aside, and no longer among the rows. */
  readonly leftOut?: readonly CellRow[];
  /** Whether nobody asks for the rows as text again: then they are let go once typed, as they fill half the memory. */
  readonly isReadOnce?: boolean;
}

/** Nothing was read; the queries say why. */
export const noRows = (queries: readonly DataQuery[]): RowsOfFile => ({
  read: 0,
  rows: [],
  setAside: [],
  queries,
});

/** The words of a file that was translated into our columns: for questions to the site, and for its answers. */
export interface FileWords {
  /** A query about a column of ours as one about the file: its own column, the cell as it stands there. */
  readonly asWritten: (query: DataQuery) => DataQuery;
  /** A cell that the site writes again, in its own words, as our text. */
  readonly inOurText: (cell: {
    readonly column: string;
    readonly row: number;
    readonly text: string;
  }) => string;
}

/** Files that were read, by the table they hold. */
export type Files = ReadonlyMap<TableName, ReadFile>;
