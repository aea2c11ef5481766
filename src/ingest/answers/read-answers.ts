import { type AnswerKind, type AnswerRow, answersTable } from "../../schema/answers.js";
import type { DateOrder } from "../../schema/cells/read-date.js";
import type { AnswerCode, DataQuery } from "../../schema/data-query.js";
import { StopError } from "../../schema/stop-error.js";
import type { Table } from "../../schema/tables.js";
import { typeRows } from "../../schema/type-rows.js";
import { readTable } from "../table/read-table.js";
import type { SourceFile } from "../text/source-file.js";

/** The file of answers as it was opened. */
export type AnswersFile = Pick<SourceFile, "file" | "bytes">;

/** One line that answers a query. */
export interface Answer {
  readonly row: number;
  readonly values: AnswerRow;
  readonly answer: AnswerKind;
  /** What takes the place of the cell; null unless the answer is a change. */
  readonly newValue: string | null;
}

/** Lines of the file of answers, each in one list. */
export interface Answers {
  readonly file: string;
  readonly read: number;
  readonly given: readonly Answer[];
  /** Lines that are not filled in yet. */
  readonly blank: readonly AnswerRow[];
  /** Lines that cannot be taken as they stand, with what is the matter. */
  readonly unreadable: readonly { readonly row: number; readonly values: AnswerRow | null }[];
  /** Every query about this file. */
  readonly queries: readonly DataQuery[];
}

export const noAnswers: Answers = { file: "", read: 0, given: [], blank: [], unreadable: [], queries: [] };

/** The word by which an answer empties a cell: a blank new value could have been forgotten. */
const emptied = /^blank$/i;

/**
 * Reads the file of answers: the list that `check --queries` writes, with its last columns filled in.
 *
 * @throws StopError when the file is no such list
 */
export function readAnswers(source: AnswersFile, { dateOrder }: { readonly dateOrder: DateOrder }): Answers {
  const table = answersTable as Table as Table<AnswerRow>;
  const read = readTable({ ...source }, answersTable as Table);
  const stops = read.queries.filter(isStop);
  if (stops.length > 0) throw new StopError(stops);
  const sorted = typeRows(read.rows, table, { dateOrder, keep: "every" });
  const notAWord = new Set(sorted.queries.filter(({ column }) => column === "answer").map(({ row }) => row));
  const given: Answer[] = [];
  const blank: AnswerRow[] = [];
  const unreadable: { row: number; values: AnswerRow | null }[] = [];
  const queries: DataQuery[] = [...read.queries, ...sorted.queries];
  for (const { row } of [...read.setAside, ...sorted.setAside]) unreadable.push({ row, values: null });
  for (const { row, values } of sorted.typed) {
    if (notAWord.has(row)) {
      unreadable.push({ row, values });
      continue;
    }
    if (isIncomplete(values)) {
      unreadable.push({ row, values });
      queries.push(askAboutAnswer({ file: source.file, row, values }, "answer-incomplete"));
      continue;
    }
    const { answer } = values;
    if (answer === null) blank.push(values);
    else given.push({ row, values, answer, newValue: newValueOf(values) });
  }
  return { file: source.file, read: read.read, given, blank, unreadable, queries };
}

/** A header without rows answers nothing yet, which is no reason to stop. */
const isStop = ({ code, severity }: DataQuery): boolean => severity === "stop" && code !== "file-header-only";

/** A change without a new value, or a new value without a change. */
const isIncomplete = ({ answer, new_value }: AnswerRow): boolean =>
  (answer === "change") !== (new_value !== null);

const newValueOf = ({ answer, new_value }: AnswerRow): string | null => {
  if (answer !== "change" || new_value === null) return null;
  return emptied.test(new_value) ? "" : new_value;
};

/** What is to be said about one line of the answers. */
export const askAboutAnswer = (
  { file, row, values }: { readonly file: string; readonly row: number; readonly values: AnswerRow },
  code: Extract<AnswerCode, `answer-${string}`>,
): DataQuery => ({
  code,
  severity: "look-at",
  file,
  row,
  column: code === "answer-incomplete" ? "new_value" : "id",
  found: code === "answer-incomplete" ? (values.new_value ?? "") : values.id,
  facts: {},
  injury: values.injury,
});
