import { csvText } from "../schema/csv-text.js";
import type { Results } from "../study/results.js";
import type { ReportFile } from "./render.js";
import { cohortTable } from "./tables/cohort.js";
import { comparisonTables } from "./tables/comparisons.js";
import { curveTables } from "./tables/curves.js";
import { distanceTables } from "./tables/distances.js";
import { missingTables } from "./tables/missing.js";
import { type FlatTable, loadTableLibrary } from "./tables/reshape.js";
import { rowTables } from "./tables/rows.js";
import { cautionLine, syntheticLine } from "./words/cautions.js";

/**
 * Every table of the report as CSV: numbers at full precision, blank where there is none, one file a table, and
 * a note on what they are. With invented data each name starts with `synthetic-` and each row says so.
 */
export async function tableFiles(results: Results): Promise<ReportFile[]> {
  const library = await loadTableLibrary();
  const tables = [
    cohortTable(library, results),
    ...curveTables(library, results),
    ...comparisonTables(library, results),
    ...distanceTables(results),
    ...missingTables(library, results),
    ...rowTables(results),
  ];
  const { synthetic } = results.plan;
  const files = tables.map((table) => ({
    path: `tables/${markedName(table.name, synthetic)}.csv`,
    content: textOf(table, synthetic),
  }));
  return [...files, { path: "tables/about-these-tables.txt", content: about(tables, synthetic) }];
}

/** A file name that says so when the data are invented. */
export const markedName = (name: string, synthetic: boolean): string =>
  synthetic ? `synthetic-${name}` : name;

const textOf = ({ columns, rows }: FlatTable, synthetic: boolean): string =>
  synthetic
    ? csvText(
        ["data", ...columns],
        rows.map((row) => ["SYNTHETIC", ...row]),
      )
    : csvText(columns, rows);

function about(tables: readonly FlatTable[], synthetic: boolean): string {
  const lines = [
    ...(synthetic ? [syntheticLine, ""] : []),
    cautionLine,
    "",
    "UTF-8, commas, a header line; blank where there is no value, with the reason as a code beside it.",
    "Days are whole days from the day that the study file names; shares lie between 0 and 1; distances are in mm.",
    "Numbers are those of results.json at full precision.",
    "",
    ...tables.map(
      ({ name, columns }) =>
        `${markedName(name, synthetic)}.csv: ${columns.map((one) => one.replaceAll("_", " ")).join(", ")}`,
    ),
  ];
  return `${lines.join("\n")}\n`;
}
