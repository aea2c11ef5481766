import { join } from "node:path";
import {
  csvText,
  groupFields,
  linkedTableNames,
  numberFields,
  type Table,
  type TableName,
  tables,
} from "../../schema/index.js";
import { writeWorkbook } from "../../workbook/index.js";
import { type ExitCode, exitCodes } from "../exit-codes.js";
import type { Terminal } from "../terminal.js";
import { writeFolder } from "../writing/index.js";

export interface BeginOptions {
  readonly form: "single-sheet" | "linked";
}

/** Writes a study folder to start from: a study file with its choices explained, and empty tables with their columns. */
export async function begin(folder: string, { form }: BeginOptions, terminal: Terminal): Promise<ExitCode> {
  const names: readonly TableName[] = form === "single-sheet" ? ["single_sheet"] : linkedTableNames;
  const workbooks = await Promise.all(
    names.map(async (name) => ({
      path: workbookOf(name),
      content: await writeWorkbook([{ name: baseOf(name), table: tables[name] as Table, rows: [] }]),
    })),
  );
  const files = [
    { path: "study.yaml", content: studyFileText(names) },
    ...workbooks,
    ...names.map((name) => ({
      path: fileOf(name),
      content: csvText(
        tables[name].fields.map((field) => field.name),
        [],
      ),
    })),
    { path: "columns.csv", content: columnsText(names) },
  ];
  await writeFolder(folder, files, {
    inputs: [],
    replace: null,
    elsewhere: "Name a new or empty folder",
    tell: terminal.say,
  });
  terminal.say(
    [
      `A study folder to start from: ${folder}`,
      ...(form === "single-sheet"
        ? [
            `  0. If you have a spreadsheet with other columns: pulley-outcomes fit ${join(folder, "YOUR-SHEET")}`,
          ]
        : []),
      `  1. Fill in ${names.map(fileOf).join(", ")}, one row per ${form === "single-sheet" ? "injury" : "record"}. columns.csv explains each column.`,
      `     Or fill in ${names.map(workbookOf).join(", ")} (lists to choose from, a note on each column) and name it in study.yaml instead.`,
      "  2. Read study.yaml and adapt it to your question.",
      `  3. Check the data: pulley-outcomes check ${join(folder, "study.yaml")}`,
      `  4. Write the report: pulley-outcomes report ${join(folder, "study.yaml")}`,
    ].join("\n"),
  );
  return exitCodes.done;
}

const baseOf = (name: TableName): string => (name === "single_sheet" ? "sheet" : name);
const fileOf = (name: TableName): string => `${baseOf(name)}.csv`;
const workbookOf = (name: TableName): string => `${baseOf(name)}.xlsx`;

/** The columns of the tables in words, as a spreadsheet. */
function columnsText(names: readonly TableName[]): string {
  return csvText(
    [
      "file",
      "column",
      "must be filled in",
      "what it contains",
      "unit",
      "allowed words",
      "from",
      "to",
      "example",
    ],
    names.flatMap((name) =>
      tables[name].fields.map((field) => [
        fileOf(name),
        field.name,
        field.required ? "yes" : "no",
        field.description,
        field.unit ?? null,
        field.terms?.join(", ") ?? null,
        field.minimum ?? null,
        field.maximum ?? null,
        field.example,
      ]),
    ),
  );
}

const studyFileText = (
  names: readonly TableName[],
): string => `# A study of the return to climbing after finger pulley injuries.
# Lines that begin with # are explanations. A key that is left out has the value shown here.

study: my-audit                 # small letters, digits, hyphens
title: Return to climbing after pulley injuries at our clinic

data:                           # paths relative to this file
${names.map((name) => `  ${name}: ${fileOf(name).padEnd(27 - name.length)} # or ${workbookOf(name)}, if that is the one you fill in`).join("\n")}
  # mappings: { ${names[0]}: mapping.yaml }   # if the columns are your own: pulley-outcomes fit
  date_order: year-first        # YYYY-MM-DD; day-first also reads 4.3.2024 and 04/03/2024, month-first also 03/04/2024
  # person_ids: shared          # the same person id at two sites is one person; per_site, which holds where this is left out: two
  # closed_on: 2025-06-30       # the day on which the data were closed; later dates raise a query
  # answers: answers.csv        # your answers to the queries: the file from "check --queries", filled in

question:
  milestone: full_climbing      # easy_climbing, full_climbing, previous_level
  clock: injury                 # day 0: injury, first_visit, treatment_start
  entry: clock                  # at risk from day 0, or only from the first visit on: first_visit
  inexact_dates: midpoint       # for a return known to the week, the month or between visits: midpoint, latest, earliest
  competing_ends: [gave_up, new_rupture, died]   # also: surgery
  first_treatment: rest_aside   # the first of tape, ring, surgery and the groups; also: of_compared (groups alone), of_all (rest too)
  treatment_without_start: left_out   # of comparisons by treatment; from_injury counts time before the treatment in its favour
  share_back: of_everyone       # whoever came to a competing end is not back; if_no_competing_end supposes there were none
  definitions: must_agree       # sites that define the milestone differently are not pooled; may_differ pools them

# who:                          # only these injuries; all where this is left out
#   grades: ["2", "3"]
#   pulleys: [A2, A4]
#   extents: [complete]         # strain, partial, complete: of the most severely injured pulley
#   fingers: [ring, middle]
#   age: { from: 18, to: 60 }
#   first_visit_within_days: 28
#   sites: [site-a]

compare:
  by: first_treatment           # or ${groupFields.join(", ")}
  groups: [ring, tape]
  reference: tape
  adjust_for: [grade]           # also: ${[...groupFields.slice(1), numberFields[0]].join(", ")}, ...
  within: grade                 # the groups side by side within each grade, or another field; null for none
  smallest_group: 5             # a stratum with fewer in either group does not enter adjusted differences

horizon_weeks: 26
landmarks_weeks: [6, 8, 10, 13, 17, 26]
main_landmark_weeks: 13

distance:                       # tendon-phalanx distance before and after
  pulley: A2
  position: loaded
  threshold_mm: 2               # common practice, no source

confidence_level: 0.95
seed: 1
# sealed: sealed-plan.json     # what "pulley-outcomes seal" wrote before the data were looked at
`;
