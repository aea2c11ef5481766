import { foundText } from "../../schema/ask.js";
import { tidy } from "../../schema/cells/reading.js";
import type { CellRow } from "../../schema/cells.js";
import type { DataQuery } from "../../schema/data-query.js";
import type { Table } from "../../schema/tables.js";
import { groupsSharingKey } from "./shared-keys.js";

/** By row, the query about a row that is the same as an earlier one in every cell. */
export function repeatedRows(
  rows: readonly CellRow[],
  { tellsApart }: Pick<Table, "tellsApart">,
): ReadonlyMap<number, DataQuery> {
  const keyOf = ({ cells }: CellRow) => tellsApart.map((column) => tidy(cells[column] ?? "")).join("\n");
  return new Map(
    groupsSharingKey(rows, keyOf).flatMap((group) => {
      const firsts = new Map<string, CellRow>();
      return group.flatMap((row): [number, DataQuery][] => {
        const whole = JSON.stringify(Object.entries(row.cells).map(([column, cell]) => [column, tidy(cell)]));
        const first = firsts.get(whole);
        if (first === undefined) firsts.set(whole, row);
        return first === undefined ? [] : [[row.row, repeated(row, first)]];
      });
    }),
  );
}

const repeated = ({ file, row, cells }: CellRow, first: CellRow): DataQuery => ({
  code: "row-repeated",
  severity: "set-aside",
  file,
  row,
  column: null,
  found: null,
  facts: { other_row: first.row },
  injury: cells.injury_id === undefined ? null : foundText(tidy(cells.injury_id)),
});
