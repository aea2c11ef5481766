import { tidy } from "../../schema/cells/reading.js";
import type { CellRow } from "../../schema/cells.js";
import type { DataQuery } from "../../schema/data-query.js";
import type { TableName } from "../../schema/table-names.js";
import { tables } from "../../schema/tables.js";
import { byKey } from "../rules/link-rule.js";
import type { Files } from "../text/rows-of-file.js";

/** What a query is about: a table, a row of it by name, a person. */
export interface About {
  readonly table: string;
  readonly rowName: string | null;
  readonly person: string | null;
}

/** Rows by the names that their cells give them. */
export interface RowNames {
  readonly of: (query: Pick<DataQuery, "file" | "row" | "injury">) => About;
}

/**
 * Names every row by its cells as they stand in the file: by the table's key where that names one row, else by the
 * identifying cells, else by all its cells, and rows that are the same in all by their order. So a row keeps its name
 * when rows are sorted or added, and rows that cannot be told apart never pass an answer on to each other.
 */
export function rowNames(files: Files): RowNames {
  const named = new Map<string, { table: TableName; rows: ReadonlyMap<number, Row> }>();
  for (const [table, { file, read }] of files) named.set(file, { table, rows: namesIn(read.rows, table) });
  const injuries = files.get("injuries")?.read.rows ?? [];
  const persons = new Map(injuries.map((row) => [cellOf(row, "injury_id"), personIn(row)]));
  return {
    of: ({ file, row, injury }) => {
      const known = named.get(file);
      const table = known?.table ?? file;
      if (row === null) return { table, rowName: null, person: null };
      const found = known?.rows.get(row);
      if (found === undefined) return { table, rowName: "not read", person: null };
      const ofInjury = persons.get(found.injury === "" ? (injury ?? "") : found.injury) ?? null;
      return { table, rowName: found.name, person: found.person ?? ofInjury };
    },
  };
}

interface Row {
  readonly name: string;
  readonly person: string | null;
  readonly injury: string;
}

const cellOf = ({ cells }: CellRow, column: string): string => tidy(cells[column] ?? "");

function personIn(row: CellRow): string | null {
  const person = cellOf(row, "person_id") || cellOf(row, "person");
  return person === "" ? null : person;
}

function namesIn(rows: readonly CellRow[], table: TableName): ReadonlyMap<number, Row> {
  const { key, tellsApart } = tables[table];
  const written = (columns: readonly string[]) => (row: CellRow) =>
    JSON.stringify(columns.map((column) => [column, cellOf(row, column)]));
  const whole = (row: CellRow) =>
    JSON.stringify(Object.entries(row.cells).filter(([, cell]) => tidy(cell) !== ""));
  const byTheKey = key.length === 0 ? () => "" : written(key);
  const hasKey = (row: CellRow) => key.length > 0 && key.every((column) => cellOf(row, column) !== "");
  const names = new Map<number, Row>();
  const name = (row: CellRow, text: string) =>
    names.set(row.row, { name: text, person: personIn(row), injury: cellOf(row, "injury_id") });
  // each step names what it can tell apart, and leaves the rest to the next
  const left = singledOut(rows.filter(hasKey), { nameOf: byTheKey, name });
  const keyless = rows.filter((row) => !hasKey(row));
  const alike = singledOut([...left, ...keyless], { nameOf: written(tellsApart), name });
  for (const group of byKey(alike, whole).values()) {
    for (const [place, row] of group.entries())
      name(row, group.length === 1 ? whole(row) : `${whole(row)} ${place + 1}`);
  }
  return names;
}

/** Names the rows that a name singles out; hands back the others. */
function singledOut(
  rows: readonly CellRow[],
  {
    nameOf,
    name,
  }: {
    readonly nameOf: (row: CellRow) => string;
    readonly name: (row: CellRow, text: string) => void;
  },
): readonly CellRow[] {
  const groups = byKey(rows, nameOf);
  return [...groups.entries()].flatMap(([text, group]) => {
    if (group.length > 1) return group;
    name(group[0]!, text);
    return [];
  });
}
