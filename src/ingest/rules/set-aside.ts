import { askAbout } from "../../schema/ask.js";
import { tidy } from "../../schema/cells/reading.js";
import type { CellRow, TypedRow } from "../../schema/cells.js";
import type { DataQuery } from "../../schema/data-query.js";
import type { InjuryRow } from "../../schema/injuries.js";
import { datedIn, surelyBefore } from "../../schema/rules/dated.js";
import type { RowCheck } from "../table/ledger.js";
import { groupsSharingKey } from "./shared-keys.js";

/** How many rows a query lists at most. */
const rowsListed = 10;

/**
 * Rows that share the key of another: all of them, since none can be trusted. Rows that are set aside for another
 * reason count too.
 *
 * @param cells every row of the file
 * @param key the columns that together name a row
 */
export function identifierTwice<Row>(
  cells: readonly CellRow[],
  key: readonly string[],
): (row: TypedRow<Row>) => readonly DataQuery[] {
  if (key.length === 0) return () => [];
  const [first = "", ...others] = key;
  const keyOf = ({ cells }: CellRow) =>
    others.reduce((name, column) => `${name}\n${tidy(cells[column] ?? "")}`, tidy(cells[first] ?? ""));
  const repeated = new Map(
    groupsSharingKey(cells, keyOf).flatMap((rows) => {
      const name = keyOf(rows[0]!);
      return rows.map((row) => [row.row, { name, rows }] as const);
    }),
  );
  if (repeated.size === 0) return () => [];
  return (row) => {
    const found = repeated.get(row.row);
    if (found === undefined) return [];
    const rows = found.rows.slice(0, rowsListed).map((other) => other.row);
    const more = found.rows.length > rowsListed ? " and more" : "";
    return [askAbout(row, keyMetTwice(key, { name: found.name, rows: `${rows.join(", ")}${more}` }))];
  };
}

/** The query about a row whose key is that of other rows. @param found name: the parts of the key, one a line */
export const keyMetTwice = (
  key: readonly string[],
  found: { readonly name: string; readonly rows: string },
): Parameters<typeof askAbout>[1] => ({
  code: "identifier-twice",
  severity: "set-aside",
  column: key.at(-1) ?? "",
  found: found.name.replaceAll("\n", ", "),
  facts: { rows: found.rows },
});

interface OfInjury {
  readonly injury_id: string;
}

export type InjuriesByName = ReadonlyMap<string, InjuryRow>;

export const injuriesByName = (rows: readonly TypedRow<InjuryRow>[]): InjuriesByName =>
  new Map(rows.map(({ values }) => [values.injury_id, values]));

/** Rows that name an injury which is not there, or which is set aside. */
export function injuryMustBeUsed(used: InjuriesByName, notUsed: readonly CellRow[]): RowCheck<OfInjury> {
  // only asked for where an injury is missing
  let names: ReadonlyMap<string, CellRow> | null = null;
  return (row) => {
    const name = row.values.injury_id;
    if (used.has(name)) return [];
    names ??= new Map(notUsed.map((one) => [tidy(one.cells.injury_id ?? ""), one]));
    const injury = names.get(name);
    return [
      askAbout(row, {
        code: injury === undefined ? "row-without-injury" : "injury-set-aside",
        severity: "set-aside",
        column: "injury_id",
        found: name,
        facts: injury === undefined ? {} : { injury_row: injury.row, injury_file: injury.file },
      }),
    ];
  };
}

/** Rows dated before their injury, as far as the precision of its date allows to tell. */
export function notBeforeInjury<Row extends OfInjury>(
  injuries: InjuriesByName,
  column: keyof Row & string,
): RowCheck<Row> {
  return (row) => {
    const injury = injuries.get(row.values.injury_id);
    const found = datedIn(row.values, { column });
    if (injury === undefined || found === null) return [];
    const day = datedIn(injury, { column: "injury_date", precision: "injury_date_precision" });
    if (day === null || !surelyBefore(found, day)) return [];
    const facts = { injury_date: day.date };
    return [
      askAbout(row, { code: "event-before-injury", severity: "set-aside", column, found: found.date, facts }),
    ];
  };
}
