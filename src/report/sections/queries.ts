import type { Results } from "../../study/results.js";
import { type ReportContext, type Section, section } from "../context.js";
import { html } from "../escape.js";
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
  if (results.queries.length === 0)
    return section("queries", html`<p>No doubts about the data were found.</p>\n`);
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
})}`,
  );
}

const queryRow = ({ code, expected, mend, file, column, n, rows }: QueryGroup): Row => [
  codeWords(code),
  expected,
  mend,
  column === null ? fileName(file) : `${fileName(file)}, ${column}`,
  n,
  rowNumbers(rows, n),
];
