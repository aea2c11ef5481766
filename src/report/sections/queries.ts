import type { Results } from "../../study/results.js";
import { type ReportContext, type Section, section } from "../context.js";
import { html, type Safe } from "../escape.js";
import { heading } from "../layout/blocks.js";
import { type Row, table } from "../layout/table.js";
import { codeWords, fileName } from "../words/terms.js";
import { rowNumbers } from "./counted.js";

type QueryGroup = Results["queries"][number];

const severities: readonly (readonly [QueryGroup["severity"], string])[] = [
  ["stop", "The run stops until this is mended"],
  ["set-aside", "The row is set aside until this is answered"],
  ["look-at", "The row is used; please look at it"],
];

/** Doubts about the data, alike ones together, with what was expected and how to mend it. */
export function queriesSection({ results }: ReportContext): Section {
  const answered = answersBlock(results.answers);
  if (results.queries.length === 0)
    return section(
      "queries",
      html`<p>No doubts about the data ${results.answers === null ? "were found" : "are open"}.</p>\n${answered}`,
    );
  return section(
    "queries",
    html`<p>What was found in a cell is not repeated here, since a report may leave the site; the rows say where to look. Nothing was changed or guessed.</p>
${table({
  caption: "Doubts about the data",
  columns: [
    { head: "Doubt" },
    { head: "The cell or row" },
    { head: "How to mend it" },
    { head: "File and column" },
    { head: "Times", align: "numbers" },
    { head: "Rows" },
  ],
  groups: severities.map(([severity, heading]) => ({
    heading,
    rows: results.queries.filter((query) => query.severity === severity).map(queryRow),
  })),
})}${answered}`,
  );
}

/** What became of the site's answers to earlier doubts; nothing where there are none. */
function answersBlock(answers: Results["answers"]): Safe | null {
  if (answers === null) return null;
  const { used, not_used } = answers;
  const rows: Row[] = [
    ["The value stands as it is", used.stands],
    ["A new value takes its place", used.change],
    ["The row is left out", used["leave-out"]],
    ["Said once more", answers.repeated],
    ["Not answered yet", answers.blank],
    ["Not used: the doubt is not raised any more", not_used.stale],
    ["Not used: answers contradict each other", not_used.contradictory],
    ["Not used: cannot be read, or is not possible", not_used.unreadable],
    ["All lines", answers.read],
  ];
  return html`${heading("What the site has answered")}<p>Answers take effect when the tables are read; the tables themselves are as they were. ${answers.cells_changed} ${answers.cells_changed === 1 ? "cell was" : "cells were"} read as the site corrected ${answers.cells_changed === 1 ? "it" : "them"}, ${answers.rows_left_out} ${answers.rows_left_out === 1 ? "row was" : "rows were"} left out. Answered doubts do not stand in the list above.</p>
${table({
  caption: `Answers, ${fileName(answers.file)}`,
  columns: [{ head: "Answer" }, { head: "Lines", align: "numbers" }],
  groups: [{ heading: null, rows }],
})}`;
}

const queryRow = ({ code, expected, mend, file, column, n, rows }: QueryGroup): Row => [
  codeWords(code),
  expected,
  mend,
  column === null ? fileName(file) : `${fileName(file)}, ${column}`,
  n,
  rowNumbers(rows, n),
];
