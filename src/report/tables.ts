import { csvText } from "../schema/csv-text.js";
import type { Results } from "../study/results.js";
import { cautionLine, syntheticLine } from "../words/cautions.js";
import { smallCellWords } from "../words/small-cells.js";
import type { ReportFile } from "./report-file.js";
import { afterTables } from "./tables/after.js";
import { afterLossTables } from "./tables/after-loss.js";
import { cohortTable } from "./tables/cohort.js";
import { comparisonTables } from "./tables/comparisons.js";
import { curveTables } from "./tables/curves.js";
import { definitionTables } from "./tables/definitions.js";
import { differenceTables } from "./tables/differences.js";
import { distanceTables } from "./tables/distances.js";
import { estimandTables } from "./tables/estimands.js";
import { knownTables } from "./tables/known.js";
import { missingTables } from "./tables/missing.js";
import { otherEndTables } from "./tables/other-ends.js";
import type { FlatTable } from "./tables/reshape.js";
import { rowTables } from "./tables/rows.js";
import { siteTables } from "./tables/sites.js";
import { trialTables } from "./tables/target-trial.js";
import { withinTables } from "./tables/within.js";

/**
 * Every table of the report as CSV: numbers at full precision, blank where there is none, one file a table, and
 * a note on what they are. With invented data each name starts with `synthetic-` and each row says so.
 */
export function tableFiles(results: Results): ReportFile[] {
  const tables = [
    cohortTable(results),
    ...trialTables(results),
    ...curveTables(results),
    ...otherEndTables(results),
    ...withinTables(results),
    ...definitionTables(results),
    ...siteTables(results),
    ...afterTables(results),
    ...knownTables(results),
    ...comparisonTables(results),
    ...estimandTables(results),
    ...differenceTables(results),
    ...distanceTables(results),
    ...missingTables(results),
    ...afterLossTables(results),
    ...rowTables(results),
  ];
  const { synthetic } = results.plan;
  const files = tables.map((table) => ({
    path: `tables/${markedName(table.name, synthetic)}.csv`,
    content: textOf(table, synthetic),
  }));
  return [...files, { path: "tables/about-these-tables.txt", content: about(tables, results) }];
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

function about(tables: readonly FlatTable[], results: Results): string {
  const { synthetic } = results.plan;
  const lines = [
    ...(synthetic ? [syntheticLine, ""] : []),
    cautionLine,
    "",
    "UTF-8, commas, a header line; blank where there is no value, with the reason as a code beside it.",
    "Days are whole days from the day that the study file names; shares lie between 0 and 1; distances are in mm.",
    "Numbers are those of results.json, digit for digit.",
    smallCellWords(results),
    "",
    ...tables.map(
      ({ name, columns }) =>
        `${markedName(name, synthetic)}.csv: ${columns.map((one) => one.replaceAll("_", " ")).join(", ")}`,
    ),
  ];
  return `${lines.join("\n")}\n`;
}
