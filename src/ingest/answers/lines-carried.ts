import { type AnswerRow, answersTable } from "../../schema/answers.js";
import type { DateOrder } from "../../schema/cells/read-date.js";
import { tidy } from "../../schema/cells/reading.js";
import type { CellRow } from "../../schema/cells.js";
import type { Table } from "../../schema/tables.js";
import { sayQuery } from "../../schema/words.js";
import { readTable } from "../table/read-table.js";
import { type Answers, type AnswersFile, readAnswers } from "./read-answers.js";

/** Columns that a site fills in. */
const filledBySite = ["answer", "new_value", "answered_by", "answered_on"] as const;

/** A list of queries that exists already: what a new one takes over from it, or why it cannot. */
export interface EarlierList {
  /** Every line in which the site has written anything. */
  readonly lines: readonly AnswerRow[];
  /** Why the list cannot give way to a new one without a loss, each with its place; empty where it can. */
  readonly reasons: readonly string[];
}

/** Lines of a file of answers in which the site has written anything. */
export const writtenLines = ({ given, unreadable, blank }: Answers): readonly AnswerRow[] => [
  ...[...given, ...unreadable].flatMap(({ values }) => values ?? []),
  ...blank.filter((line) => filledBySite.some((column) => line[column] !== null)),
];

/** What tells two lines apart: the id, and what the site has written. */
export const lineText = (line: AnswerRow): string =>
  JSON.stringify([line.id, ...filledBySite.map((column) => line[column])]);

/**
 * Reads a list that a new one is to take the place of. Whatever cannot be carried over is a reason to leave it as it is:
 * lines that cannot be read, entries that are no answer, columns of the site's own.
 *
 * @throws StopError when the file is no list of queries
 */
export function earlierList(
  source: AnswersFile,
  { dateOrder }: { readonly dateOrder: DateOrder },
): EarlierList {
  const lines = writtenLines(readAnswers(source, { dateOrder }));
  const read = readTable(source, answersTable as Table);
  return {
    lines,
    reasons: [
      ...read.queries.filter(({ code }) => code !== "file-header-only").map(sayReason),
      ...read.rows.flatMap((row) => notCarried(row, lines)),
    ],
  };
}

function sayReason(query: Parameters<typeof sayQuery>[0]): string {
  const { found, expected } = sayQuery(query);
  const place = query.row === null ? "" : `row ${query.row}: `;
  return `${place}${query.column === null ? "" : `column "${query.column}": `}${found} ${expected}`;
}

/** The entries of a row that stand in none of the lines: each could not be read as what its column holds. */
function notCarried({ row, cells }: CellRow, lines: readonly AnswerRow[]): readonly string[] {
  const own = lines.filter(({ id }) => id === tidy(cells.id ?? ""));
  return filledBySite
    .filter((column) => tidy(cells[column] ?? "") !== "" && !own.some((line) => line[column] !== null))
    .map((column) => `row ${row}: what is written in the column "${column}" cannot be read as such`);
}
