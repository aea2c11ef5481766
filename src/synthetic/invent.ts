import { csvText } from "../schema/csv-text.js";
import { jsonText } from "../schema/json-text.js";
import { yamlText } from "../schema/settings/yaml-text.js";
import { linkedTableNames, type TableName } from "../schema/table-names.js";
import { tableText } from "../schema/table-text.js";
import { dataPackageText, type TableFile } from "./data-package.js";
import { drawCohort, type SyntheticCohort } from "./draw.js";
import type { Scenario } from "./scenario.js";
import { singleSheetRows } from "./single-sheet.js";
import { faultCells, faultColumns, spoilSheet } from "./spoil.js";
import { studyText } from "./study-file.js";
import { type TruthOptions, trueEffects } from "./truth.js";

/** A file of a synthetic folder. */
export interface SyntheticFile {
  readonly path: string;
  readonly content: string | Uint8Array;
}

const fileOf = (table: TableName): TableFile => ({
  table,
  path: `synthetic-${table.replaceAll("_", "-")}.csv`,
});

/**
 * Everything that belongs to a synthetic cohort: the scenario with its defaults, the linked tables, a study file, the truth
 * and a descriptor of the tables; for a cohort of one site also the same injuries as a single sheet with a study file of its own.
 *
 * @param options of the simulation of the truth
 */
export function inventCohort(scenario: Scenario, options: TruthOptions = {}): readonly SyntheticFile[] {
  const cohort = drawCohort(scenario);
  const files = linkedTableNames.map(fileOf);
  const sheet = scenario.sites.length === 1 ? [fileOf("single_sheet")] : [];
  return [
    { path: "scenario.yaml", content: scenarioText(scenario) },
    ...[...files, ...sheet].map((file) => tableOf(cohort, file)),
    studyOf(scenario, cohort),
    ...sheet.map(({ path }) => singleSheetStudy({ scenario, cohort, path })),
    { path: "truth.json", content: jsonText(trueEffects(scenario, options)) },
    { path: "datapackage.json", content: dataPackageText(scenario, [...files, ...sheet]) },
  ];
}

/** The linked tables of a synthetic cohort and their study file alone: drawn at once, since no truth is simulated. */
export function inventTables(scenario: Scenario): readonly SyntheticFile[] {
  const cohort = drawCohort(scenario);
  return [...linkedTableNames.map((table) => tableOf(cohort, fileOf(table))), studyOf(scenario, cohort)];
}

const tableOf = (cohort: SyntheticCohort, { table, path }: TableFile): SyntheticFile => ({
  path,
  content: tableText(table, rowsOf(cohort, table)),
});

function studyOf(scenario: Scenario, { closedOn }: SyntheticCohort): SyntheticFile {
  const data = Object.fromEntries(linkedTableNames.map((table) => [table, fileOf(table).path]));
  return { path: "study.yaml", content: studyText({ scenario, closedOn }, { data }) };
}

/** A dirty single sheet of the scenario in windows-1252, the list of what is wrong with it, a study file and the truth. */
export function inventDirtySheet(scenario: Scenario, options: TruthOptions = {}): readonly SyntheticFile[] {
  const cohort = drawCohort(scenario);
  const { text, faults } = spoilSheet(cohort, { seed: scenario.seed, stream: 1 });
  const path = "synthetic-dirty-sheet.csv";
  const data = { single_sheet: path };
  return [
    { path: "scenario.yaml", content: scenarioText(scenario) },
    { path, content: latinBytes(text) },
    { path: "synthetic-whats-wrong.csv", content: csvText(faultColumns, faults.map(faultCells)) },
    { path: "study.yaml", content: studyText({ scenario, closedOn: cohort.closedOn }, { data }) },
    { path: "truth.json", content: jsonText(trueEffects(scenario, options)) },
  ];
}

function singleSheetStudy(of: { scenario: Scenario; cohort: SyntheticCohort; path: string }): SyntheticFile {
  const { scenario, cohort, path } = of;
  const options = { suffix: "-single-sheet", data: { single_sheet: path } };
  return {
    path: "study-single-sheet.yaml",
    content: studyText({ scenario, closedOn: cohort.closedOn }, options),
  };
}

const rowsOf = (cohort: SyntheticCohort, table: TableName): readonly object[] =>
  table === "single_sheet" ? singleSheetRows(cohort) : cohort[table];

const scenarioText = (scenario: Scenario): string =>
  `# SYNTHETIC: the scenario of an invented cohort, every default filled in.\n${yamlText(scenario)}`;

/** Bytes of windows-1252 for text whose characters all lie below U+0080 or in U+00A0 to U+00FF, where it equals their number. */
const latinBytes = (text: string): Uint8Array => Uint8Array.from(text, (letter) => letter.charCodeAt(0));
