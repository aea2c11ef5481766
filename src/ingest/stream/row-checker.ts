import { askAbout } from "../../schema/ask.js";
import { tidy } from "../../schema/cells/reading.js";
import type { DataQuery, QueryCode } from "../../schema/data-query.js";
import { rowNamer } from "../../schema/row-namer.js";
import { isTyped, type RowTyper, rowTyper } from "../../schema/row-typer.js";
import { checkRow, type RowRule } from "../../schema/rules/row-rule.js";
import type { Table } from "../../schema/tables.js";
import { keyMetTwice } from "../rules/set-aside.js";
import type { ReadingContext } from "../table/check-rows.js";
import type { RowTaker } from "../table/table-reader.js";
import { keyKeeper } from "./key-keeper.js";

/** A row of a stream that can be used: its number, and its values in the order of the table's fields (see `rowNamer`). */
export interface StreamedRow {
  readonly row: number;
  readonly values: readonly unknown[];
}

interface CheckerOptions<Row> {
  readonly table: Table<Row>;
  readonly rules: readonly RowRule<Row>[];
  readonly context: ReadingContext;
  readonly onRow: (row: StreamedRow) => void;
  readonly ask: (query: DataQuery) => void;
}

/** What became of the rows. */
export interface RowsSoFar {
  readonly used: number;
  readonly setAside: number;
  readonly reasons: ReadonlyMap<QueryCode, number>;
  readonly withdrawn: ReadonlySet<number>;
}

/** Types and checks rows one at a time, and keeps the account of them. */
export interface RowChecker extends RowTaker {
  readonly soFar: () => RowsSoFar;
}

/** A checker for the rows of one file. Of the rows that share a key none is used, as none can be trusted. */
export function rowChecker<Row>(
  file: string,
  { table, rules, context, onRow, ask }: CheckerOptions<Row>,
): RowChecker {
  const reasons = new Map<QueryCode, number>();
  const withdrawn = new Set<number>();
  /** With each key its first row, negative where that is not used. */
  const keys = keyKeeper();
  let typeRow: RowTyper | null = null;
  const named = rowNamer(table);
  const noQueries: readonly DataQuery[] = [];
  const broken = (values: readonly unknown[], row: number): readonly DataQuery[] =>
    rules.length === 0 ? noQueries : checkRow({ file, row, values: named(values) }, { rules, context });
  let keyPlaces: readonly number[] = [];
  let used = 0;
  let setAside = 0;

  const putAside = ({ code }: DataQuery): void => {
    setAside += 1;
    reasons.set(code, (reasons.get(code) ?? 0) + 1);
  };
  /** The query about a key that was met before, whose first row is then withdrawn; null for a new key. */
  const metBefore = ({ key, place }: { key: string; place: number }, row: number): DataQuery | null => {
    const first = keys.numberAt(place);
    if (first === 0) return null;
    const finding = keyMetTwice(table.key, { name: key, rows: `${Math.abs(first)}, ${row}` });
    const twice = (at: number): DataQuery => askAbout({ file, row: at, values: {} }, finding);
    if (first > 0) {
      keys.setNumber(place, -first);
      used -= 1;
      withdrawn.add(first);
      const query = twice(first);
      ask(query);
      putAside(query);
    }
    const query = twice(row);
    ask(query);
    return query;
  };

  return {
    open: (columns) => {
      typeRow = rowTyper(table, { columns, dateOrder: context.dateOrder, ask });
      keyPlaces = table.key.map((name) => columns.find((column) => column.name === name)?.place ?? -1);
    },
    take: (entries, row) => {
      const typed = typeRow!(entries, { file, row });
      const key = keyPlaces.length === 0 ? null : keyOf(entries, keyPlaces);
      const place = key === null ? -1 : keys.placeOf(key);
      const double = key === null ? null : metBefore({ key, place }, row);
      let reason = isTyped(typed) ? double : typed;
      for (const query of isTyped(typed) ? broken(typed, row) : noQueries) {
        ask(query);
        if (query.severity === "set-aside") reason ??= query;
      }
      if (key !== null && double === null) keys.setNumber(place, reason === null ? row : -row);
      if (reason !== null) return putAside(reason);
      used += 1;
      onRow({ row, values: typed as readonly unknown[] });
    },
    setAside: putAside,
    soFar: () => ({ used, setAside, reasons, withdrawn }),
  };
}

const keyOf = (entries: readonly string[], places: readonly number[]): string =>
  places.length === 1
    ? tidy(entries[places[0]!] ?? "")
    : places.map((place) => tidy(entries[place] ?? "")).join("\n");
