import type { AnswerKind } from "./answers.js";
import { counted } from "./counted.js";
import type { DataQuery } from "./data-query.js";

/** Rows of one table: read = used + set aside, always. */
export interface RowAccount {
  readonly table: string;
  readonly file: string;
  /** Where several sites were joined: whose file it is. */
  readonly site?: string;
  readonly read: number;
  readonly used: number;
  /** Of a file in columns of its own: those that are not used. */
  readonly columnsNotUsed?: readonly ColumnNotUsed[];
  /** Where a row held several injuries, each of which counts as a row here: how many rows the file has. */
  readonly unfoldedFrom?: number;
  /** Where rows were visits: the injuries they were folded into. */
  readonly folded?: FoldedRows;
  /** One entry a row that is not used, with the query that set it aside (the first, if several). */
  readonly setAside: readonly { readonly row: number; readonly query: DataQuery }[];
}

/** A column that is not used, and how many of its cells are filled. */
export interface ColumnNotUsed {
  /** As the file calls it. */
  readonly column: string;
  readonly filled: number;
}

/** Rows of visits that were folded into injuries: rows used = injuries + further visits. */
export interface FoldedRows {
  /** Rows that are the first of an injury. */
  readonly injuries: number;
  /** Rows that are further visits of these. */
  readonly further: number;
  /** Of the rows used, those of which the injury is read and the visit is not. */
  readonly visitsNotUsed: number;
  /** By column, blank cells that were read from another row of the same injury or person. */
  readonly carried: readonly { readonly column: string; readonly cells: number }[];
}

/** The rows read and used from every table, and every query about them. */
export interface Accounted {
  readonly accounts: readonly RowAccount[];
  readonly queries: readonly DataQuery[];
}

/** Holds the identity of row accounting, or stops the run: a toolkit that loses a row may not report. */
export function assertAccountBalances({ table, file, read, used, setAside }: RowAccount): void {
  if (read !== used + setAside.length) {
    throw new Error(
      `${file}: row accounting of ${table} does not balance: ${counted(read, "row", "rows")} read, ${used} used, ${setAside.length} set aside. ` +
        "This is an error in the toolkit, not in the file; no report is written.",
    );
  }
}

/** What became of every line of the file of answers: read = blank + used + repeated + not used, always. */
export interface AnswerAccount {
  readonly file: string;
  readonly read: number;
  /** Not answered yet. */
  readonly blank: number;
  /** Answers that are used, by what they say. */
  readonly used: Readonly<Record<AnswerKind, number>>;
  /** Lines that say once more what another line says of the same query. */
  readonly repeated: number;
  /** Answers that are not used, by the reason. */
  readonly notUsed: { readonly stale: number; readonly contradictory: number; readonly unreadable: number };
  /** Cells in whose place an answer stands. */
  readonly cellsChanged: number;
  /** Rows that an answer sets aside. */
  readonly rowsLeftOut: number;
}

/** Holds the identity of the answers, or stops the run: no answer is dropped in silence. */
export function assertAnswersBalance({ file, read, blank, used, repeated, notUsed }: AnswerAccount): void {
  const told = [blank, repeated, ...Object.values(used), ...Object.values(notUsed)];
  if (read !== told.reduce((sum, n) => sum + n, 0)) {
    throw new Error(
      `${file}: the account of the answers does not balance: ${counted(read, "line", "lines")} read, ${told.join(" + ")} counted. ` +
        "This is an error in the toolkit, not in the file; no report is written.",
    );
  }
}
