import { ArgumentError, checkColumn, checkSameLength } from "./arguments.js";
import type { NamesOf } from "./options.js";

/**
 * One row a record. All columns are as long as `times`.
 *
 * - `times`: when the event came or follow-up ended, 0 or more, on one unit throughout. Ties are exact comparisons.
 * - `events`: 1 where the event came at that time, 0 where follow-up ended without it (censored)
 * - `entries`: the record is at risk on (entry, time]. Left out: at risk from the start, time 0 included.
 * - `weights`: 0 or more; they count as that many records. Left out: 1 each.
 * - `clusters`: whole numbers; rows with the same number belong together (fingers of one person).
 */
export interface TimeToEvent {
  readonly times: ArrayLike<number>;
  readonly events: ArrayLike<number>;
  readonly entries?: ArrayLike<number>;
  readonly weights?: ArrayLike<number>;
  readonly clusters?: ArrayLike<number>;
}

export const timeToEventNames: NamesOf<TimeToEvent> = {
  times: true,
  events: true,
  entries: true,
  weights: true,
  clusters: true,
};

/** Entries must be finite and lie before the time of their row: nobody is at risk for no time at all. */
export function checkEntries(columns: {
  readonly times: ArrayLike<number>;
  readonly entries?: ArrayLike<number>;
}): void {
  if (columns.entries === undefined) return;
  const entries = { name: "entries", values: columns.entries };
  checkSameLength(entries, { name: "times", values: columns.times });
  checkColumn(entries, "finite");
  for (let i = 0; i < entries.values.length; i++) {
    const entry = entries.values[i]!;
    const time = columns.times[i]!;
    if (entry >= time)
      throw new ArgumentError({
        argument: "entries",
        index: i,
        expected: `before times[${i}], which is ${time}`,
        found: entry,
      });
  }
}

/** @throws ArgumentError naming the column and the first index at fault */
export function checkTimeToEvent(columns: TimeToEvent): void {
  const times = { name: "times", values: columns.times };
  const events = { name: "events", values: columns.events };
  checkSameLength(events, times);
  checkColumn(times, "not negative");
  checkColumn(events, "zero or one");
  checkEntries(columns);
  checkOptional({ name: "weights", values: columns.weights, kind: "not negative" }, columns.times);
  checkOptional({ name: "clusters", values: columns.clusters, kind: "code" }, columns.times);
}

/** Checks a column that may be left out. */
export function checkOptional(
  column: { name: string; values: ArrayLike<number> | undefined; kind: "not negative" | "code" },
  times: ArrayLike<number>,
): void {
  if (column.values === undefined) return;
  const named = { name: column.name, values: column.values };
  checkSameLength(named, { name: "times", values: times });
  checkColumn(named, column.kind);
}

/** The rows listed, in that order, of every column of these names that is there. */
export function rowsOf<Columns extends object>(
  columns: Columns,
  { rows, names }: { readonly rows: ArrayLike<number>; readonly names: NamesOf<Columns> },
): Columns {
  const picked = (values: ArrayLike<number>): Float64Array => {
    const own = new Float64Array(rows.length);
    for (let i = 0; i < own.length; i++) own[i] = values[rows[i]!]!;
    return own;
  };
  const given = columns as Readonly<Record<string, ArrayLike<number> | undefined>>;
  const there = Object.keys(names).filter((name) => given[name] !== undefined);
  return Object.fromEntries(there.map((name) => [name, picked(given[name]!)])) as Columns;
}
