import type { DateOrder } from "./cells/read-date.js";
import type { CellRow, TypedRow } from "./cells.js";
import type { DataQuery } from "./data-query.js";
import { type Keep, queryList } from "./query-list.js";
import { rowNamer } from "./row-namer.js";
import { isTyped, rowTyper } from "./row-typer.js";
import type { Table } from "./tables.js";

/** Rows as typed values, and those that cannot be used: every row given is in one list or the other. */
export interface SortedRows<Row> {
  readonly typed: readonly TypedRow<Row>[];
  /** Every query, those that set a row aside included. */
  readonly queries: readonly DataQuery[];
  /** One entry a row that cannot be used, with the first query that set it aside. */
  readonly setAside: readonly { readonly row: number; readonly query: DataQuery }[];
}

/** Problems of a cell that says no value. */
const saysNoValue: ReadonlySet<DataQuery["code"]> = new Set(["value-missing", "missing-in-words"] as const);

/**
 * Cells to typed values: each cell is read by the kind of its field, then checked against the table's schema.
 *
 * A blank cell is `null`. A cell that cannot be taken as it stands gives a query, never a guess: in a required field
 * it sets the row aside, and so it does where a blank would say something (a date of return that cannot be read is not
 * "not back yet"); in any other optional field the value is `null` and the row is used.
 *
 * @param options dateOrder: how dates are written that do not put the year first; "year-first" takes only YYYY-MM-DD;
 *   keep: whether more than 200 alike queries are kept one by one
 */
export function typeRows<Row>(
  rows: readonly CellRow[],
  table: Table<Row>,
  { dateOrder = "year-first", keep = "some" }: { readonly dateOrder?: DateOrder; readonly keep?: Keep } = {},
): SortedRows<Row> {
  const names = table.fields.map(({ name }) => name);
  const columns = names.map((name, i) => ({ name, place: i }));
  const queries = queryList(keep);
  const treatments = new Set(
    table.fields.filter(({ cells, required }) => cells === "treatment" && !required).map(({ name }) => name),
  );
  let unread: string[] = [];
  const typeRow = rowTyper(table, {
    columns,
    dateOrder,
    ask: (query) => {
      queries.add(query);
      if (query.column !== null && treatments.has(query.column) && !saysNoValue.has(query.code))
        unread.push(query.column);
    },
  });
  const named = rowNamer(table);
  const typed: TypedRow<Row>[] = [];
  const setAside: { row: number; query: DataQuery }[] = [];
  const entries = names.map(() => "");
  for (const { file, row, cells } of rows) {
    for (const { name, place } of columns) entries[place] = cells[name] ?? "";
    unread = [];
    const outcome = typeRow(entries, { file, row });
    if (isTyped(outcome))
      typed.push({ file, row, values: named(outcome), ...(unread.length === 0 ? {} : { unread }) });
    else setAside.push({ row, query: outcome });
  }
  return { typed, queries: queries.all(), setAside };
}
