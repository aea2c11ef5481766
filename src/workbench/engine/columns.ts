import {
  applyMapping,
  bookLine,
  freeAnswerHint,
  isAboutColumns,
  type MappedFile,
  type Mapping,
  mappingNameFor,
  type OddShape,
  type Proposal,
  previewOf,
  proposalSaid,
  type Said,
  tableOf,
} from "../../ingest/mapping/index.js";
import { labelOf } from "../../schema/index.js";
import type { SheetOfFile } from "./bring.js";
import type { ColumnsView, FieldView, QuestionView } from "./tasks.js";

const rowsShown = 4;

export const proposalFor = ({ sheet, book }: Pick<SheetOfFile, "sheet" | "book">, said: Said): Proposal =>
  proposalSaid(sheet, {
    said,
    name: mappingNameFor(sheet.file),
    table: "single_sheet",
    ...(book === null ? {} : { codes: book.codes }),
  });

/** How a sheet is read, for a person to agree with or to correct. */
export function columnsView(
  { sheet, grid, others, book, odd }: SheetOfFile,
  { proposal, said }: { readonly proposal: Proposal; readonly said: Said },
): ColumnsView {
  const { mapping, leftOut } = proposal;
  return {
    file: sheet.file,
    sheet: sheet.sheet,
    sheets: sheet.sheet === null ? [] : [sheet.sheet, ...others],
    records: sheet.records.length,
    codes: book === null ? null : bookLine(book),
    fields: fieldsOf(proposal, said),
    columns: sheet.columns.map(({ name }) => name),
    questions: [
      ...(odd === null ? [] : [whichSheet(odd)]),
      ...[
        ...mapping.undecided.filter(isAboutColumns),
        ...mapping.undecided.filter((one) => !isAboutColumns(one)),
      ].map(
        (asked): QuestionView => ({
          question: asked.question,
          example: asked.example ?? null,
          choices: Object.entries(asked.choices).map(([answer, means]) => ({ answer, means })),
          other: freeAnswerHint(asked, mapping),
        }),
      ),
    ],
    leftOut,
    preview: previewIn(applyMapping(grid, { ...mapping, undecided: [] }), mapping),
  };
}

/** Rows in several sheets are one question before all others. */
const whichSheet = ({ found, change, sheets }: OddShape): QuestionView => ({
  question: `${found} ${change} If only one of them is meant, which one?`,
  example: null,
  choices: sheets.map((name) => ({ answer: name, means: name })),
  other: null,
});

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

function previewIn(read: MappedFile, mapping: Mapping): ColumnsView["preview"] {
  const { names, rows } = previewOf(read, { mapping, count: rowsShown });
  return { names: names.map(labelOf), rows };
}
