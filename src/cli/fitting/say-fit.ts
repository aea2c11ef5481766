import { basename, dirname, join, relative } from "node:path";
import type { Grid, ShapedSheet } from "../../ingest/index.js";
import { applyMapping, type Mapping, type Proposal, tableOf } from "../../ingest/mapping/index.js";
import { counted, oneLine } from "../../schema/index.js";
import { guessTable } from "./guess-table.js";
import { previewLines } from "./preview.js";
import { countLines } from "./would-count.js";

const kinds: Readonly<Record<ShapedSheet["leftOut"][number]["kind"], string>> = {
  preamble: "above the header",
  header: "a repeated header",
  units: "units",
  totals: "totals",
  footnote: "a note",
};

/** What was found in a file, before anything is asked. */
export function findings(
  { mapping, guesses, evidence, leftOut: unused, notLookedAt }: Proposal,
  {
    grid,
    sheet,
    file,
    others,
  }: {
    readonly grid: Grid;
    readonly sheet: ShapedSheet;
    readonly file: string;
    /** Other sheets of the workbook. */
    readonly others: readonly string[];
  },
): string {
  const leftOut = sheet.leftOut.filter(({ row }) => !sheet.headerRows.includes(row));
  const order = mapping.undecided.some(({ decides }) => decides[0]?.[0] === "date_order")
    ? "not decided"
    : mapping.date_order;
  const where = grid.sheet === null ? file : `${file}, sheet "${oneLine(grid.sheet)}"`;
  return [
    `${where}: ${counted(mapping.seen?.rows ?? 0, "record", "records")}, ${counted(mapping.seen?.columns.length ?? 0, "column", "columns")}`,
    ...(others.length === 0
      ? []
      : [
          `  other sheets: ${others.map((name) => `"${oneLine(name)}"`).join(", ")} (choose one with --sheet)`,
        ]),
    ...fewRecognised({ mapping, guesses }),
    ...whatRowsAre(mapping),
    "",
    ...guessTable({ guesses }),
    "",
    `  dates: ${order} (${oneLine(evidence.date_order ?? "")})`,
    `  decimal sign: ${mapping.decimal_sign} (${oneLine(evidence.decimal_sign ?? "")})`,
    ...(leftOut.length === 0
      ? []
      : [
          `  rows that are not records: ${leftOut.map(({ row, kind }) => `${row} (${kinds[kind]})`).join(", ")}`,
        ]),
    ...(unused.length === 0
      ? []
      : ["  not used:", ...datesFirst(unused).slice(0, mostUnused).map(unusedLine)]),
    ...(unused.length > mostUnused ? [`    and ${unused.length - mostUnused} more`] : []),
    ...(notLookedAt === 0
      ? []
      : [
          `  not examined: ${counted(notLookedAt, "further column", "further columns")} with the least telling names; add a column to the mapping if it is needed`,
        ]),
  ].join("\n");
}

/** What a row is, where it looks like a visit and nobody has said so yet. */
const whatRowsAre = ({ undecided }: Mapping): readonly string[] =>
  undecided
    .filter(({ decides }) => ["one_row", "injuries_in_row"].includes(decides[0]?.[0] ?? ""))
    .map(({ question }) => `  ${question}`);

/** A wrong sheet, table or header shows in what every row needs and is not there. */
function fewRecognised({ mapping, guesses }: Pick<Proposal, "mapping" | "guesses">): readonly string[] {
  const needed = tableOf(mapping).fields.filter(({ required }) => required);
  const found = guesses.filter(({ field, confidence }) => field.required && confidence !== "unsure").length;
  if (found * 2 >= needed.length) return [];
  return [
    `  Of the ${counted(needed.length, "column", "columns")} that every row of ${mapping.table} needs, ${found} ${found === 1 ? "is" : "are"} recognised.`,
    "  Check that this is the right sheet (--sheet), the right table (--table) and the right header row (--header-rows).",
  ];
}

const mostUnused = 40;

/** Of many columns those that matter most stand where they are seen. */
const datesFirst = (unused: Proposal["leftOut"]): Proposal["leftOut"] => [
  ...unused.filter(({ holds }) => holds.startsWith("dates")),
  ...unused.filter(({ holds }) => !holds.startsWith("dates")),
];

const unusedLine = ({ name, holds, filled }: Proposal["leftOut"][number]): string =>
  `    ${onOneLine(name)} (${[...(filled === 0 ? [] : [counted(filled, "filled cell", "filled cells")]), ...(holds === "" ? [] : [holds])].join(": ")})`;

const onOneLine = (text: string): string => oneLine(text.replaceAll(/\s+/g, " "));

/** The evidence, as comments of the mapping. */
export function commentsOf(
  { guesses, evidence }: Proposal,
  { file, schema }: { readonly file: string; readonly schema: string },
) {
  return {
    head: [
      `yaml-language-server: $schema=./${schema}`,
      `How ${basename(file)} translates into the columns of the toolkit. Correct what is wrong: this file decides.`,
      'Under "values", a cell may also mean blank (not known) or ask (a query about each row).',
    ],
    settings: evidence,
    columns: Object.fromEntries(
      guesses.map((guess) => [guess.field.name, `${guess.confidence}: ${guess.evidence.join("; ")}`]),
    ),
  };
}

/** How the file will be read: its first rows, and what a study would count. */
export function reading(
  mapping: Mapping,
  { grid, file }: { readonly grid: Grid; readonly file: string },
): string {
  const read = applyMapping(grid, mapping);
  const counts = countLines(read, { mapping, file: basename(file) });
  return [
    "",
    "The first rows as they will be read (a ? marks what will raise a query):",
    ...previewLines(read, mapping),
    "",
    ...(counts.length === 0 ? [] : [...counts, ""]),
  ].join("\n");
}

/** What was written, and what comes next. */
export function outcome(
  mapping: Mapping,
  { file, into, schema }: { readonly file: string; readonly into: string; readonly schema: string },
): string {
  const open = mapping.undecided.length;
  const folder = dirname(into);
  return [
    `Mapping: ${into}`,
    `  An editor that knows YAML completes columns and words in it by ${basename(schema)}.`,
    ...(open === 0
      ? []
      : [`  ${counted(open, "question is", "questions are")} open: answer under "undecided:" in that file.`]),
    "Next, name the file and its mapping in a study file (pulley-outcomes begin writes one):",
    "  data:",
    `    ${mapping.table}: ${relative(folder, file)}`,
    "    mappings:",
    `      ${mapping.table}: ${basename(into)}`,
    `Then check the data: pulley-outcomes check ${join(folder, "study.yaml")}`,
  ].join("\n");
}
