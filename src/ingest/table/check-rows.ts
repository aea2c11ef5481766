import type { DateOrder } from "../../schema/cells/read-date.js";
import type { CellRow, TypedRow } from "../../schema/cells.js";
import type { PersonIds } from "../../schema/person-key.js";
import type { Keep, QueryList } from "../../schema/query-list.js";
import { checkRow, type RowRule, type RuleContext } from "../../schema/rules/row-rule.js";
import type { Table } from "../../schema/tables.js";
import { typeRows } from "../../schema/type-rows.js";
import { repeatedRows } from "../rules/repeated-rows.js";
import { identifierTwice } from "../rules/set-aside.js";
import type { ReadFile } from "../text/rows-of-file.js";
import { type Ledger, openLedger, type RowCheck, rowsThatPass } from "./ledger.js";

/** What a run knows about its files beforehand. */
export interface ReadingContext extends RuleContext {
  readonly dateOrder: DateOrder;
  /** How far a person id names one person; within its site where it is not stated. */
  readonly personIds?: PersonIds | undefined;
  /** Whether more than 200 alike queries are kept one by one. */
  readonly keep?: Keep;
}

/** A file whose rows were typed and checked by the rules about one row. */
export interface CheckedRows<Row> {
  readonly ledger: Ledger;
  /** The rows that are set aside, as text: what names them is told why it cannot be used. */
  readonly notUsed: readonly CellRow[];
  readonly rows: readonly TypedRow<Row>[];
}

/** Cells to typed rows, each row against itself, and names that stand for more than one row. */
export function checkRows<Row>(
  { file, read, leftOut = [], isReadOnce = false }: ReadFile,
  {
    table,
    rules,
    context,
    queries,
  }: {
    readonly table: Table<Row>;
    readonly rules: readonly RowRule<Row>[];
    readonly context: ReadingContext;
    readonly queries: QueryList;
  },
): CheckedRows<Row> {
  const ledger = openLedger({ table: table.name, file }, read);
  for (const query of read.queries) queries.add(query);
  const dateOrder = read.words === undefined ? context.dateOrder : "year-first";
  const sorted = typeRows(read.rows, table, { ...context, dateOrder });
  for (const query of sorted.queries) queries.add(query);
  for (const { row, query } of sorted.setAside) ledger.setAside.set(row, query);
  const namesAnother = identifierTwice<Row>(read.rows, table.key);
  const repeated = table.key.length === 0 ? repeatedRows(read.rows, table) : null;
  const check: RowCheck<Row> = (row) => {
    const again = repeated?.get(row.row);
    const [named, broken] = [namesAnother(row), checkRow(row, { rules, context })];
    if (again !== undefined) return [again, ...named, ...broken];
    return named.length === 0 ? broken : [...named, ...broken];
  };
  const rows = rowsThatPass(sorted.typed, { check, ledger, queries });
  const notUsed = [...read.rows.filter(({ row }) => ledger.setAside.has(row)), ...leftOut];
  if (isReadOnce) (read.rows as CellRow[]).length = 0;
  return { ledger, notUsed, rows };
}
