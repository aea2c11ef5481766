import { foundText } from "../../schema/ask.js";
import { tidy } from "../../schema/cells/reading.js";
import type { TypedRow } from "../../schema/cells.js";
import type { DataQuery, QueryCode } from "../../schema/data-query.js";
import { type RowTyper, rowTyper } from "../../schema/row-typer.js";
import { checkRow, type RowRule } from "../../schema/rules/row-rule.js";
import type { Table } from "../../schema/tables.js";
import type { RowTaker } from "../table-reader.js";
import type { ReadingContext } from "../take-in.js";
import { keyKeeper } from "./key-keeper.js";

interface CheckerOptions<Row> {
  readonly table: Table<Row>;
  readonly rules: readonly RowRule<Row>[];
  readonly context: ReadingContext;
  readonly onRow: (row: TypedRow<Row>) => void;
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
  /** The first row of each key, negative where it is not used: a number takes the least memory. */
  const keys = keyKeeper();
  let typeRow: RowTyper<Row> | null = null;
  let keyPlaces: readonly number[] = [];
  let used = 0;
  let setAside = 0;

  const putAside = ({ code }: DataQuery): void => {
    setAside += 1;
    reasons.set(code, (reasons.get(code) ?? 0) + 1);
  };
  /** The query about a key that was met before, whose first row is then withdrawn; null for a new key. */
  const metBefore = (key: string, row: number): DataQuery | null => {
    const first = keys.find(key);
    if (first === undefined) return null;
    const about = { file, column: table.key.at(-1) ?? "", found: key, rows: `${Math.abs(first)}, ${row}` };
    if (first > 0) {
      keys.keep(key, -first);
      used -= 1;
      withdrawn.add(first);
      const query = twice({ ...about, row: first });
      ask(query);
      putAside(query);
    }
    const query = twice({ ...about, row });
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
      const double = key === null ? null : metBefore(key, row);
      let reason = "values" in typed ? double : typed;
      for (const query of "values" in typed ? checkRow(typed, { rules, context }) : []) {
        ask(query);
        if (query.severity === "set-aside") reason ??= query;
      }
      if (key !== null && double === null) keys.keep(key, reason === null ? row : -row);
      if (reason !== null) return putAside(reason);
      used += 1;
      onRow(typed as TypedRow<Row>);
    },
    setAside: putAside,
    soFar: () => ({ used, setAside, reasons, withdrawn }),
  };
}

const keyOf = (entries: readonly string[], places: readonly number[]): string =>
  places.length === 1
    ? tidy(entries[places[0] as number] ?? "")
    : places.map((place) => tidy(entries[place] ?? "")).join("\n");

const twice = ({
  file,
  row,
  column,
  found,
  rows,
}: {
  readonly file: string;
  readonly row: number;
  readonly column: string;
  readonly found: string;
  readonly rows: string;
}): DataQuery => ({
  code: "identifier-twice",
  severity: "set-aside",
  file,
  row,
  column,
  found: foundText(found.replaceAll("\n", ", ")),
  facts: { rows },
  injury: null,
});
