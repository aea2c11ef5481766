import { dayNumber } from "../schema/dates.js";
import { type LinkedTableName, linkedTableNames } from "../schema/table-names.js";
import { tables as schemas, type Table } from "../schema/tables.js";
import type { SharedRow } from "./de-identify.js";
import type { Values } from "./persons.js";
import { cellOf } from "./quasi-fields.js";

/** The rows of a copy by table. */
export type CopyRows = ReadonlyMap<LinkedTableName, readonly SharedRow[]>;

/** Names of one row or person: nothing can be learned from them about others. */
const names: ReadonlySet<string> = new Set(["injury_id", "person_id"]);

/** What stands in each column beside an injury, in all tables; numbers of many values by tenths, days by weeks. */
export function wordsOf(copy: CopyRows): ReadonlyMap<string, ReadonlyMap<string, readonly string[]>> {
  const start = new Map(
    (copy.get("injuries") ?? []).map(({ values }) => [
      String(values.injury_id),
      dayNumber(String(values.injury_date)),
    ]),
  );
  const found = new Map<string, Map<string, string[]>>(
    [...start.keys()].map((injury) => [injury, new Map()]),
  );
  for (const table of linkedTableNames) {
    if (table === "sites") continue;
    const rows = copy.get(table) ?? [];
    for (const field of (schemas[table] as Table).fields) {
      if (names.has(field.name) || rows[0] === undefined || !(field.name in rows[0].values)) continue;
      const wordOf = wordsFor(field.kind, { column: rows.map(({ values }) => values[field.name]), start });
      for (const { values } of rows) {
        const words = found.get(String(values.injury_id));
        const column = `${table}.${field.name}`;
        words?.set(column, [...new Set([...(words.get(column) ?? []), wordOf(values, field.name)])]);
      }
    }
  }
  return found;
}

/** More different numbers than this are taken by tenths of the rows. */
const fewNumbers = 12;

function wordsFor(
  kind: string,
  { column, start }: { readonly column: readonly unknown[]; readonly start: ReadonlyMap<string, number> },
): (values: Values, name: string) => string {
  if (kind === "date") {
    return (values, name) => {
      const date = values[name] ?? null;
      if (date === null) return "";
      return String(Math.round((dayNumber(String(date)) - start.get(String(values.injury_id))!) / 7));
    };
  }
  const numbers = column.filter((value): value is number => typeof value === "number").sort((a, b) => a - b);
  if (new Set(numbers).size <= fewNumbers) return (values, name) => cellOf(values, name);
  const tenths = Array.from({ length: 9 }, (_, i) => numbers[Math.floor(((i + 1) * numbers.length) / 10)]!);
  return (values, name) => {
    const value = values[name];
    return typeof value === "number" ? String(tenths.filter((limit) => limit <= value).length) : "";
  };
}
