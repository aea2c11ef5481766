import Papa from "papaparse";
import type { CohortForSite } from "../../ingest/index.js";
import { type AnswerKind, type AnswerRow, answerKinds, answersTable } from "../../schema/answers.js";
import { csvText, sayQuery } from "../../schema/index.js";
import type { AnswerGiven, CheckView, QueriesView, QueryView } from "./tasks.js";

/** So many rows of a group are shown. */
const rowsShown = 60;

type ListedRow = Readonly<Record<keyof AnswerRow, string>>;

const columns = answersTable.fields.map(({ name }) => name as keyof AnswerRow);

const listed = (csv: string): readonly ListedRow[] =>
  Papa.parse<ListedRow>(csv, { header: true, skipEmptyLines: true }).data;

/** The list of queries with one more answer, as the file of answers. */
export function withAnswer(csv: string, { ids, answer, newValue }: AnswerGiven): string {
  const meant = new Set(ids);
  const rows = listed(csv).map((row) =>
    meant.has(row.id) ? { ...row, answer: answer ?? "", new_value: newValue ?? "" } : row,
  );
  return csvText(
    columns,
    rows.map((row) => columns.map((column) => row[column] ?? "")),
  );
}

/** Whether a list of queries holds any answer. */
export const holdsAnswers = (csv: string): boolean => listed(csv).some(({ answer }) => answer !== "");

/** What was read, and the queries by rule: those open, and those answered. */
export function checkView(
  { accounts, open, csv }: CohortForSite,
  { notices, dateOrder }: Pick<CheckView, "notices" | "dateOrder">,
): CheckView {
  const answered = listed(csv).filter(({ answer }) => answer !== "");
  return {
    accounts: accounts.map(({ file, read, used, setAside }) => ({
      file,
      read,
      used,
      setAside: setAside.length,
    })),
    queries: [...openGroups(open), ...answeredGroups(answered)],
    answered: answered.length,
    notices,
    dateOrder,
  };
}

const order = { stop: 0, "set-aside": 1, "look-at": 2 } as const;

function openGroups(open: CohortForSite["open"]): readonly QueriesView[] {
  const groups = new Map<string, QueriesView & { rows: QueryView[]; ids: string[] }>();
  for (const { id, person, query } of open) {
    const { where, found, expected, correction, consequence } = sayQuery(query);
    const key = JSON.stringify([query.severity, query.file, query.code, query.column, expected, correction]);
    const group = groups.get(key) ?? {
      key,
      severity: query.severity,
      column: query.column,
      isAboutRows: query.row !== null,
      expected,
      correction,
      consequence,
      rows: [],
      ids: [],
      isAnswered: false,
    };
    group.ids.push(id);
    if (group.rows.length < rowsShown)
      group.rows.push({ id, where, found, person, answer: null, newValue: null });
    groups.set(key, group);
  }
  return [...groups.values()].sort((one, other) => order[one.severity] - order[other.severity]);
}

/** Answers given, by what was answered: each can be taken back. */
function answeredGroups(rows: readonly ListedRow[]): readonly QueriesView[] {
  const groups = new Map<string, ListedRow[]>();
  for (const row of rows) {
    const key = JSON.stringify(["answered", row.rule, row.column, row.answer, row.new_value]);
    groups.set(key, [...(groups.get(key) ?? []), row]);
  }
  return [...groups].map(([key, group]) => ({
    key,
    severity: "look-at",
    column: group[0]!.column || null,
    isAboutRows: group[0]!.row !== "",
    expected: group[0]!.query,
    correction: group[0]!.how_to_correct,
    consequence: "",
    rows: group.slice(0, rowsShown).map((row) => ({
      id: row.id,
      where: [row.file, row.row === "" ? "" : `row ${row.row}`].filter((part) => part !== "").join(", "),
      found: row.found,
      person: row.person || null,
      answer: answerOf(row.answer),
      newValue: row.new_value || null,
    })),
    ids: group.map(({ id }) => id),
    isAnswered: true,
  }));
}

const answerOf = (text: string): AnswerKind | null => answerKinds.find((kind) => kind === text) ?? null;
