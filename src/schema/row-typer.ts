import type { z } from "zod";
import { foundText } from "./ask.js";
import { cellReaderOf } from "./cells/read-cell.js";
import type { DateOrder } from "./cells/read-date.js";
import { type Reading, tidy } from "./cells/reading.js";
import type { TypedRow } from "./cells.js";
import type { CellCode, DataQuery } from "./data-query.js";
import type { Field } from "./field.js";
import { type QuickReader, quickReaderOf } from "./quick-reader.js";
import type { Table } from "./tables.js";

/** Turns the entries of one row into a typed row, or tells the first query that sets it aside. */
export type RowTyper<Row> = (
  entries: readonly string[],
  at: { readonly file: string; readonly row: number },
) => TypedRow<Row> | DataQuery;

/** A column of the file: its field, where it stands, how its cells are read. */
interface Column {
  readonly field: Field;
  readonly place: number;
  readonly quick: QuickReader;
  readonly read: (cell: string) => Reading;
}

/**
 * The typer of a table's rows: each cell is read by the kind of its field and held against the schema of the field.
 * All doubts about a row are asked, in the order of the fields; a field in doubt is null.
 *
 * @param options columns: where the columns of the table stand in a row, those not in the file left out;
 *   ask: takes every doubt
 */
export function rowTyper<Row>(
  table: Table<Row>,
  {
    columns,
    dateOrder,
    ask,
  }: {
    readonly columns: readonly { readonly name: string; readonly place: number }[];
    readonly dateOrder: DateOrder;
    readonly ask: (query: DataQuery) => void;
  },
): RowTyper<Row> {
  const fieldNamed = new Map(table.fields.map((field) => [field.name, field]));
  const read: readonly Column[] = columns.map(({ name, place }) => {
    const field = fieldNamed.get(name)!;
    return { field, place, quick: quickReaderOf(field), read: checkedReaderOf(table, { field, dateOrder }) };
  });
  // all fields in the order of the schema, so that every row has the same shape
  const blankRow = Object.fromEntries(table.fields.map(({ name }) => [name, null]));
  const notInFile = table.fields.filter(
    ({ name, required }) => required && !columns.some((column) => column.name === name),
  );
  const injuryPlace = columns.find(({ name }) => name === "injury_id")?.place ?? -1;
  return (entries, { file, row }) => {
    const values: Record<string, unknown> = { ...blankRow };
    let reason: DataQuery | null = null;
    const doubt = (field: Field, about: CellDoubt) => {
      const query = queryAbout(field, {
        ...about,
        file,
        row,
        cell: entries[read.find((column) => column.field === field)?.place ?? -1] ?? "",
        injury: entries[injuryPlace] ?? "",
      });
      ask(query);
      if (query.severity === "set-aside") reason ??= query;
    };
    for (const { field, place, quick, read: readFully } of read) {
      const cell = entries[place] ?? "";
      if (cell === "") {
        if (field.required) doubt(field, missing(field));
        continue;
      }
      const quickly = quick(cell);
      if (quickly !== undefined) {
        values[field.name] = quickly;
        continue;
      }
      const reading = readFully(cell);
      if ("problem" in reading) doubt(field, { code: reading.problem, facts: reading.facts });
      else if (reading.value === null && field.required) doubt(field, missing(field));
      else values[field.name] = reading.value;
    }
    for (const field of notInFile) doubt(field, missing(field));
    return reason ?? { file, row, values: values as Row };
  };
}

interface CellDoubt {
  readonly code: CellCode;
  readonly facts: Readonly<Record<string, string | number>>;
}

const missing = ({ example }: Field): CellDoubt => ({ code: "value-missing", facts: { example } });

/** How many readings of a column are remembered: sheets repeat themselves. */
const remembered = 5_000;

/** Reads a cell and holds the value against the schema of its field; what the schema refuses is a problem. */
function checkedReaderOf(
  table: Table,
  { field, dateOrder }: { readonly field: Field; readonly dateOrder: DateOrder },
): (cell: string) => Reading {
  const read = cellReaderOf(field, dateOrder);
  const schema = table.row.shape[field.name] as z.ZodType;
  const known = new Map<string, Reading>();
  return (cell) => {
    const before = known.get(cell);
    if (before !== undefined) return before;
    const reading = heldAgainst(schema, { field, reading: read(cell) });
    if (known.size < remembered) known.set(cell, reading);
    return reading;
  };
}

function heldAgainst(
  schema: z.ZodType,
  { field, reading }: { readonly field: Field; readonly reading: Reading },
): Reading {
  if ("problem" in reading || reading.value === null) return reading;
  const issue = schema.safeParse(reading.value).error?.issues[0];
  if (issue === undefined) return reading;
  const { code, facts } = doubtOfIssue(issue, field);
  return { problem: code, facts };
}

/** What the schema holds against a value that could be read. */
function doubtOfIssue(issue: z.core.$ZodIssue, field: Field): CellDoubt {
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

function queryAbout(
  field: Field,
  {
    code,
    facts,
    file,
    row,
    cell,
    injury,
  }: CellDoubt & {
    readonly file: string;
    readonly row: number;
    readonly cell: string;
    readonly injury: string;
  },
): DataQuery {
  const name = tidy(injury);
  return {
    code,
    severity: field.required || field.blankSays !== undefined ? "set-aside" : "look-at",
    file,
    row,
    column: field.name,
    found: foundText(tidy(cell)),
    facts: field.blankSays === undefined ? facts : { ...facts, blankSays: field.blankSays },
    injury: name === "" ? null : foundText(name),
  };
}
