import { type Table, tables } from "../../schema/tables.js";
import { visitSheet } from "../../schema/visit-sheet.js";
import type { Mapping } from "./mapping.js";

/** The columns that a mapping fills: those of its table, or of a sheet with one row a visit. */
export const tableOf = ({ table, one_row }: Pick<Mapping, "table" | "one_row">): Table =>
  one_row === "visit" ? visitSheet : tables[table];
