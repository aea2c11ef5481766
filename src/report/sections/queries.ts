import type { Results } from "../../study/results.js";
import { codeWords, fileName } from "../../words/terms.js";
import { type ReportContext, type Section, section } from "../context.js";
import { html, type Safe } from "../escape.js";
import { heading } from "../layout/blocks.js";
import { type Row, table } from "../layout/table.js";
import { rowNumbers } from "./counted.js";

type QueryGroup = Results["queries"][number];

const severities: readonly (readonly [QueryGroup["severity"], string])[] = [
  ["stop", "No report until this is corrected"],
  ["set-aside", "The row is set aside until this is answered"],
  ["look-at", "The row is used; please check it"],
];

/** Data queries, alike ones together, with what was expected and how to correct it. */
export function queriesSection({ results }: ReportContext): Section {
  const answered = answersBlock(results.answers);
  if (results.queries.length === 0)
    return section(
      "queries",
      html`<p>No data queries ${results.answers === null ? "were found" : "are open"}.</p>\n${answered}`,
    );
  return section(
    "queries",
    html`<p>Values found in cells are not repeated here, since a report may leave the site; the row numbers say where to look. Nothing was changed or guessed.</p>
${table({
  caption: "Queries, by rule",
  columns: [
    { head: "Query" },
    { head: "Cell or row" },
    { head: "How to correct it" },
    { head: "File and column" },
    { head: "Number", align: "numbers" },
    { head: "Rows" },
  ],
  groups: severities.map(([severity, heading]) => ({
    heading,
    rows: results.queries.filter((query) => query.severity === severity).map(queryRow),
  })),
})}${answered}`,
  );
}

/** What became of the site's answers to earlier queries; nothing where there are none. */
function answersBlock(answers: Results["answers"]): Safe | null {
  if (answers === null) return null;
  const { used, not_used } = answers;
  const rows: Row[] = [
    ["The value stands as it is", used.stands],
    ["A new value takes its place", used.change],
    ["The row is left out", used["leave-out"]],
    ["Given more than once", answers.repeated],
    ["Not answered yet", answers.blank],
    ["Not used: the query is no longer raised", not_used.stale],
    ["Not used: answers contradict each other", not_used.contradictory],
    ["Not used: cannot be read, or not possible", not_used.unreadable],
    ["All lines", answers.read],
  ];
  return html`${heading("Answers of the site")}<p>Answers take effect when the tables are read; the tables themselves are as they were. ${answers.cells_changed} ${answers.cells_changed === 1 ? "cell was" : "cells were"} read as the site corrected ${answers.cells_changed === 1 ? "it" : "them"}, ${answers.rows_left_out} ${answers.rows_left_out === 1 ? "row was" : "rows were"} left out. Answered queries are not in the list above.</p>
${table({
  caption: `Answers, ${fileName(answers.file)}`,
  columns: [{ head: "Answer" }, { head: "Lines", align: "numbers" }],
  groups: [{ heading: null, rows }],
})}`;
}

const queryRow = ({ code, expected, correction, file, column, n, rows }: QueryGroup): Row => [
  codeWords(code),
  expected,
  correction,
  column === null ? fileName(file) : `${fileName(file)}, ${column}`,
  n,
  rowNumbers(rows, n),
];
