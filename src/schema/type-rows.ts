import type { z } from "zod";
import { foundText } from "./ask.js";
import { cellReaderOf } from "./cells/read-cell.js";
import type { DateOrder } from "./cells/read-date.js";
import { tidy } from "./cells/reading.js";
import type { CellRow, TypedRow } from "./cells.js";
import type { CellCode, DataQuery } from "./data-query.js";
import type { Field } from "./field.js";
import { queryList } from "./query-list.js";
import type { Table } from "./tables.js";

/** Rows as typed values, and those that cannot be used: every row given is in one list or the other. */
export interface SortedRows<Row> {
  readonly typed: readonly TypedRow<Row>[];
  /** Every doubt, those that set a row aside included. */
  readonly queries: readonly DataQuery[];
  /** One entry a row that cannot be used, with the first query that set it aside. */
  readonly setAside: readonly { readonly row: number; readonly query: DataQuery }[];
}

interface CellDoubt {
  readonly field: Field;
  readonly code: CellCode;
  readonly facts: Readonly<Record<string, string | number>>;
}

/**
 * Cells to typed values: each cell is read by the kind of its field, then the row is held against the table's schema.
 *
 * A blank cell is `null`. A cell that cannot be taken as it stands gives a query, never a guess: in a required field
 * it sets the row aside, and so it does where a blank would say something (a date of return that cannot be read is not
 * "not back yet"); in any other optional field the value is `null` and the row is used.
 *
 * @param options dateOrder: how dates are written that do not put the year first; "year-first" takes only YYYY-MM-DD
 */
export function typeRows<Row>(
  rows: readonly CellRow[],
  table: Table<Row>,
  { dateOrder = "year-first" }: { readonly dateOrder?: DateOrder } = {},
): SortedRows<Row> {
  const readRow = rowReaderOf(table, dateOrder);
  const typed: TypedRow<Row>[] = [];
  const queries = queryList();
  const setAside: { row: number; query: DataQuery }[] = [];
  for (const cells of rows) {
    const { values, doubts } = readRow(cells.cells);
    let reason: DataQuery | null = null;
    for (const doubt of doubts) {
      const query = queryAbout(cells, doubt);
      queries.add(query);
      if (query.severity === "set-aside") reason ??= query;
    }
    if (reason === null) typed.push({ file: cells.file, row: cells.row, values: values as Row });
    else setAside.push({ row: cells.row, query: reason });
  }
  return { typed, queries: queries.all(), setAside };
}

/** Reads the cells of one row, all doubts at once; a field in doubt is null. */
function rowReaderOf(table: Table, dateOrder: DateOrder) {
  const readers = table.fields.map((field) => ({ field, read: cellReaderOf(field, dateOrder) }));
  const fieldNamed = new Map(table.fields.map((field) => [field.name, field]));
  return (cells: CellRow["cells"]) => {
    const values: Record<string, unknown> = {};
    const doubts: CellDoubt[] = [];
    for (const { field, read } of readers) {
      const reading = read(cells[field.name] ?? "");
      const value = "problem" in reading ? null : reading.value;
      values[field.name] = value;
      if ("problem" in reading) doubts.push({ field, code: reading.problem, facts: reading.facts });
      else if (value === null && field.required) {
        doubts.push({ field, code: "value-missing", facts: { example: field.example } });
      }
    }
    const checked = table.row.safeParse(values);
    for (const issue of checked.error?.issues ?? []) {
      const field = fieldNamed.get(String(issue.path[0]));
      if (field === undefined)
        throw new Error(`${table.name}: the schema refuses a whole row: ${issue.message}`);
      if (doubts.some((doubt) => doubt.field === field)) continue;
      doubts.push({ field, ...doubtOfIssue(issue, field) });
      values[field.name] = null;
    }
    return { values, doubts };
  };
}

/** What the schema holds against a value that could be read. */
function doubtOfIssue(issue: z.core.$ZodIssue, field: Field): Pick<CellDoubt, "code" | "facts"> {
  const isNumber = field.kind === "number" || field.kind === "integer";
  const unit: Readonly<Record<string, string>> = field.unit === undefined ? {} : { unit: field.unit };
  if (isNumber && (issue.code === "too_small" || issue.code === "too_big")) {
    return {
      code: "number-out-of-range",
      facts: { minimum: field.minimum ?? "", maximum: field.maximum ?? "", ...unit },
    };
  }
  if (isNumber && issue.code === "invalid_type") return { code: "number-not-whole", facts: {} };
  if (issue.code === "too_big") return { code: "text-too-long", facts: { longest: Number(issue.maximum) } };
  return { code: "value-not-accepted", facts: { example: field.example } };
}

function queryAbout({ file, row, cells }: CellRow, { field, code, facts }: CellDoubt): DataQuery {
  const cell = tidy(cells[field.name] ?? "");
  const injury = tidy(cells.injury_id ?? "");
  return {
    code,
    severity: field.required || field.blankSays !== undefined ? "set-aside" : "look-at",
    file,
    row,
    column: field.name,
    found: foundText(cell),
    facts: field.blankSays === undefined ? facts : { ...facts, blankSays: field.blankSays },
    injury: injury === "" ? null : foundText(injury),
  };
}
