import { oneLine } from "../../schema/hidden-characters.js";
import { type Table, tables } from "../../schema/tables.js";
import { typeRows } from "../../schema/type-rows.js";
import { foldVisits } from "../cohort/fold-visits.js";
import type { MappedFile } from "./apply/apply-mapping.js";
import type { Mapping } from "./mapping.js";

/** The first rows of a file as they will be read. */
export interface Preview {
  /** Our columns that are filled in one of these rows, or that the mapping reads. */
  readonly names: readonly string[];
  readonly rows: readonly {
    readonly row: number;
    /** One a name; `isAsked` where the cell will raise a query. */
    readonly cells: readonly { readonly text: string; readonly isAsked: boolean }[];
  }[];
}

/** The first rows of a mapped file, visits folded into injuries where a row is a visit. */
export function previewOf(
  { rows, oneRow }: Pick<MappedFile, "rows" | "oneRow">,
  { mapping, count }: { readonly mapping: Mapping; readonly count: number },
): Preview {
  const records = oneRow === "visit" ? foldVisits(rows, "per_site").map(({ injury }) => injury) : rows;
  const shown = records.slice(0, count);
  const { queries } = typeRows(shown, tables[mapping.table] as Table);
  const asked = new Set(queries.map(({ row, column }) => `${row} ${column}`));
  const names = tables[mapping.table].fields
    .map(({ name }) => name)
    .filter((name) =>
      shown.some(({ cells }) => (cells[name] ?? "") !== "" || mapping.columns[name] !== undefined),
    );
  return {
    names,
    rows: shown.map(({ row, cells }) => ({
      row,
      cells: names.map((name) => ({
        text: oneLine((cells[name] ?? "").replaceAll(/\s+/g, " ")),
        isAsked: asked.has(`${row} ${name}`),
      })),
    })),
  };
}
