import type { IsoDate } from "../schema/dates.js";
import type { Field } from "../schema/field.js";
import type { When } from "../schema/said-of-field.js";
import type { LinkedTableName } from "../schema/table-names.js";
import { type Table, tables } from "../schema/tables.js";
import type { Values } from "./persons.js";

/** A column of dates, as its field describes it. */
export interface DatedColumn {
  readonly name: string;
  readonly when: When;
  readonly move: "injury" | "contact" | "own";
  /** The column that says how exactly it is known, where there is one. */
  readonly precision: string | null;
}

const dated = ({ name, when, sharing, precision }: Field): readonly DatedColumn[] =>
  when === undefined || typeof sharing !== "object" || !("move" in sharing)
    ? []
    : [{ name, when, move: sharing.move, precision: precision ?? null }];

/** The columns of dates of a linked table, in its order. */
export const datedColumnsOf = (table: LinkedTableName): readonly DatedColumn[] =>
  (tables[table] as Table).fields.flatMap(dated);

/** The days of some columns that a row tells. */
export const datesIn = (values: Values, columns: readonly DatedColumn[]): readonly IsoDate[] =>
  columns.map(({ name }) => values[name] as IsoDate | null).filter((date) => date !== null);
