import type { z } from "zod";
import { foundText } from "./ask.js";
import { cellReaderOf } from "./cells/read-cell.js";
import type { DateOrder } from "./cells/read-date.js";
import { blank, type CellProblem, problem, type Reading, tidy } from "./cells/reading.js";
import { remembering } from "./cells/remembering.js";
import type { DataQuery } from "./data-query.js";
import type { Field } from "./field.js";
import { type QuickReader, quickReaderOf } from "./quick-reader.js";
import type { Table } from "./tables.js";

/**
 * The values of one row, one a field in the order of the table, null for what the file does not say; or the first query
 * that sets the row aside.
 */
export type RowTyper = (
  entries: readonly string[],
  at: { readonly file: string; readonly row: number },
) => readonly unknown[] | DataQuery;

/** A column of the file: its field and which of the table that is, where it stands, how its cells are read. */
interface Column {
  readonly field: Field;
  readonly index: number;
  readonly place: number;
  readonly quick: QuickReader;
  readonly read: (cell: string) => Reading;
}

interface TyperOptions {
  /** Where the columns of the table stand in a row, those not in the file left out. */
  readonly columns: readonly { readonly name: string; readonly place: number }[];
  readonly dateOrder: DateOrder;
  /** Takes every query. */
  readonly ask: (query: DataQuery) => void;
}

/**
 * The typer of a table's rows: each cell is read by the kind of its field and checked against the schema of the field.
 * All queries about a row are asked, in the order of the fields; a field that cannot be read is null.
 */
export function rowTyper<Row>(table: Table<Row>, { columns, dateOrder, ask }: TyperOptions): RowTyper {
  const placeOf = new Map(columns.map(({ name, place }) => [name, place]));
  const read = table.fields
    .map((field, i): Column => {
      const place = placeOf.get(field.name) ?? notInFile;
      const readFully = checkedReaderOf(table, { field, dateOrder });
      return { field, index: i, place, quick: quickReaderOf(field), read: readFully };
    })
    .filter(({ field, place }) => field.required || place !== notInFile);
  const blankRow: readonly unknown[] = table.fields.map(() => null);
  const injuryPlace = placeOf.get("injury_id") ?? notInFile;
  return (entries, { file, row }) => {
    const values = blankRow.slice();
    let reason: DataQuery | null = null;
    for (const { field, index, place, quick, read: readFully } of read) {
      const cell = entries[place] ?? "";
      const quickly = cell === "" ? undefined : quick(cell);
      if (quickly !== undefined) {
        values[index] = quickly;
        continue;
      }
      const reading = cell === "" ? blank : readFully(cell);
      if ("value" in reading && (reading.value !== null || !field.required)) {
        values[index] = reading.value;
        continue;
      }
      const problem = "problem" in reading ? reading : missing(field);
      const query = queryAbout(problem, { field, cell, file, row, injury: entries[injuryPlace] ?? "" });
      ask(query);
      if (query.severity === "set-aside") reason ??= query;
    }
    return reason ?? values;
  };
}

/** Whether a row could be typed. */
export const isTyped = (outcome: ReturnType<RowTyper>): outcome is readonly unknown[] =>
  Array.isArray(outcome);

/** No row has an entry in this place. */
const notInFile = -1;

const missing = ({ example }: Field): CellProblem => problem("value-missing", { example });

/** Reads a cell and holds the value against the schema of its field; what the schema refuses is a problem. */
function checkedReaderOf(
  table: Table,
  { field, dateOrder }: { readonly field: Field; readonly dateOrder: DateOrder },
): (cell: string) => Reading {
  const read = cellReaderOf(field, dateOrder);
  const schema = table.row.shape[field.name] as z.ZodType;
  return remembering((cell) => heldAgainst(schema, { field, reading: read(cell) }));
}

function heldAgainst(
  schema: z.ZodType,
  { field, reading }: { readonly field: Field; readonly reading: Reading },
): Reading {
  if ("problem" in reading || reading.value === null) return reading;
  const issue = schema.safeParse(reading.value).error?.issues[0];
  if (issue === undefined) return reading;
  return problemOfIssue(issue, field);
}

/** What the schema holds against a value that could be read. */
function problemOfIssue(issue: z.core.$ZodIssue, field: Field): CellProblem {
  const isNumber = field.kind === "number" || field.kind === "integer";
  const unit: Readonly<Record<string, string>> = field.unit === undefined ? {} : { unit: field.unit };
  if (isNumber && (issue.code === "too_small" || issue.code === "too_big")) {
    return problem("number-out-of-range", {
      minimum: field.minimum ?? "",
      maximum: field.maximum ?? "",
      ...unit,
    });
  }
  if (isNumber && issue.code === "invalid_type") return problem("number-not-whole");
  if (issue.code === "too_big") return problem("text-too-long", { longest: Number(issue.maximum) });
  return problem("value-not-accepted", { example: field.example });
}

/** What every row needs; a blank that would say something; a name, without which the row would count for another. */
const setsAside = (code: CellProblem["problem"], { required, blankSays }: Field): boolean =>
  required || blankSays !== undefined || code === "identifier-hidden";

function queryAbout(
  { problem: code, facts }: CellProblem,
  {
    field,
    cell,
    file,
    row,
    injury,
  }: {
    readonly field: Field;
    readonly cell: string;
    readonly file: string;
    readonly row: number;
    readonly injury: string;
  },
): DataQuery {
  const name = tidy(injury);
  return {
    code,
    severity: setsAside(code, field) ? "set-aside" : "look-at",
    file,
    row,
    column: field.name,
    found: foundText(tidy(cell)),
    facts: field.blankSays === undefined ? facts : { ...facts, blankSays: field.blankSays },
    injury: name === "" ? null : foundText(name),
  };
}
