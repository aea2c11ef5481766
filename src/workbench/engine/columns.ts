import { foldVisits, readFileAsGrid, type ShapedSheet } from "../../ingest/index.js";
import {
  applyMapping,
  type MappedFile,
  type Mapping,
  type Proposal,
  proposalSaid,
  type Said,
  tableOf,
} from "../../ingest/mapping/index.js";
import { labelOf, oneLine, type Table, tables, typeRows } from "../../schema/index.js";
import type { ColumnsView, FieldView, NamedBytes } from "./tasks.js";

const rowsShown = 4;

/** A name for a mapping, from the name of the file. */
const mappingName = (file: string): string =>
  file
    .toLowerCase()
    .replace(/\.[^.]*$/, "")
    .replaceAll(/[^a-z0-9]+/g, "-")
    .slice(0, 60)
    .replaceAll(/^-+|-+$/g, "") || "mapping";

export const proposalFor = (sheet: ShapedSheet, said: Said): Proposal =>
  proposalSaid(sheet, { said, name: mappingName(sheet.file), table: "single_sheet" });

/** How a sheet is read, for a person to agree with or to correct. */
export async function columnsView(
  {
    file,
    sheet,
    sheets,
  }: { readonly file: NamedBytes; readonly sheet: ShapedSheet; readonly sheets: readonly string[] },
  { proposal, said }: { readonly proposal: Proposal; readonly said: Said },
): Promise<ColumnsView> {
  const { mapping, leftOut } = proposal;
  const { grid } = await readFileAsGrid({ file: file.name, bytes: file.bytes }, { sheet: sheet.sheet });
  return {
    file: file.name,
    sheet: sheet.sheet,
    sheets,
    records: sheet.records.length,
    fields: fieldsOf(proposal, said),
    columns: sheet.columns.map(({ name }) => name),
    questions: mapping.undecided.map(({ question, example, choices }) => ({
      question,
      example: example ?? null,
      choices: Object.entries(choices).map(([answer, means]) => ({ answer, means })),
    })),
    leftOut,
    preview: previewOf(applyMapping(grid!, { ...mapping, undecided: [] }), mapping),
  };
}

function fieldsOf({ guesses, mapping }: Proposal, said: Said): readonly FieldView[] {
  return tableOf(mapping).fields.map((field) => {
    const guess = guesses.find((one) => one.field.name === field.name);
    const isSaid = said.columns.has(field.name);
    return {
      field: field.name,
      label: labelOf(field.name),
      description: field.description,
      isRequired: field.required,
      sources: guess?.sources ?? [],
      confidence: isSaid ? "said" : (guess?.confidence ?? "unsure"),
      evidence: guess?.evidence ?? [],
    };
  });
}

/** The first rows as they will be read. */
function previewOf({ rows, oneRow }: MappedFile, mapping: Mapping): ColumnsView["preview"] {
  const records = oneRow === "visit" ? foldVisits(rows, "per_site").map(({ injury }) => injury) : rows;
  const shown = records.slice(0, rowsShown);
  const { queries } = typeRows(shown, tables[mapping.table] as Table);
  const asked = new Set(queries.map(({ row, column }) => `${row} ${column}`));
  const names = tables[mapping.table].fields
    .map(({ name }) => name)
    .filter((name) => shown.some(({ cells }) => (cells[name] ?? "") !== ""));
  return {
    names: names.map(labelOf),
    rows: shown.map(({ row, cells }) => ({
      row,
      cells: names.map((name) => ({
        text: oneLine(cells[name] ?? ""),
        isAsked: asked.has(`${row} ${name}`),
      })),
    })),
  };
}
