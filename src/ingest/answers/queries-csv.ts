import { type AnswerRow, answersTable } from "../../schema/answers.js";
import { type CsvCell, csvText } from "../../schema/csv-text.js";
import type { DataQuery } from "../../schema/data-query.js";
import { sayQuery } from "../../schema/words.js";
import { byKey } from "../rules/link-rule.js";
import { lineText, writtenLines } from "./lines-carried.js";
import type { Answers } from "./read-answers.js";
import type { NamedQuery } from "./register.js";
import type { RaisedQuery } from "./settle.js";

const columns = answersTable.fields.map(({ name }) => name);

/** The list of queries as CSV, and what became of the lines that were there before. */
export interface QueriesList {
  readonly csv: string;
  /** Lines in which something was written. */
  readonly carried: number;
  /** Of these, lines whose query is no longer raised: the row has changed, or is gone. */
  readonly noLongerRaised: number;
}

/**
 * The list of queries for the site to answer, one row per query, sorted by person and then by rule. It holds values of
 * the tables. Answers given before stand in their rows, and lines that belong to no query of this reading come last, as
 * they were and marked as such: the list can take the place of the file of answers.
 *
 * @param earlier lines of an earlier list that is to give way to this one
 */
export function queriesList(
  raised: readonly RaisedQuery[],
  { answers, earlier = [] }: { readonly answers: Answers | null; readonly earlier?: readonly AnswerRow[] },
): QueriesList {
  const before = [...(answers === null ? [] : writtenLines(answers)), ...earlier];
  const lines = [...new Map(before.map((line) => [lineText(line), line])).values()];
  const given = new Map(byKey(lines, ({ id }) => id));
  const rows: (readonly CsvCell[])[] = [];
  for (const one of [...raised].sort(byPersonAndRule)) {
    const told = toldOf(one, one.asWritten(one.query));
    const own = given.get(one.id) ?? [unanswered];
    given.delete(one.id);
    for (const line of own) {
      const state = line.answer === null ? "open" : "answered";
      rows.push([...told, state, line.answer, line.new_value, line.answered_by, line.answered_on]);
    }
  }
  const rest = [...given.values()].flat();
  for (const values of rest) rows.push(columns.map((column) => cellIn(values, column)));
  return { csv: csvText(columns, rows), carried: lines.length, noLongerRaised: rest.length };
}

const unanswered = { answer: null, new_value: null, answered_by: null, answered_on: null };

const cellIn = (values: AnswerRow, column: string): CsvCell =>
  column === "state" ? "no-longer-raised" : values[column as keyof AnswerRow];

/** Rule and column go by our names, by which an answer is known again; what is said goes by the words of the file. */
function toldOf({ id, person, query }: NamedQuery, written: DataQuery): CsvCell[] {
  const { found, expected, correction, consequence } = sayQuery(written);
  const { code, file, row, column, injury } = query;
  const inColumn = written.column === column ? "" : `Column "${written.column}": `;
  const inWords = `${inColumn}${found} ${expected}. ${consequence}`;
  return [id, person, injury, code, file, row, column, written.found, inWords, correction];
}

const orderOf = ({ person, query, id }: NamedQuery) =>
  [person ?? "", query.code, query.file, query.row ?? 0, query.column ?? "", id] as const;

function byPersonAndRule(one: NamedQuery, other: NamedQuery): number {
  const [first, second] = [orderOf(one), orderOf(other)];
  const place = first.findIndex((part, i) => part !== second[i]);
  return place === -1 ? 0 : first[place]! < second[place]! ? -1 : 1;
}
