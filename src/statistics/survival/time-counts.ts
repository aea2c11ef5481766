import { floatsOf } from "../shared/arguments.js";
import { largestInTable } from "../shared/distinct-times.js";
import { sortedWithLabels } from "../shared/order-by-time.js";
import { checkTimeToEvent, type TimeToEvent } from "../shared/time-to-event.js";
import { prepareRiskSets, type RiskSets } from "./risk-sets.js";

/** How many rows of each kind there are at each different time. */
export interface CountTable {
  /** Ascending. */
  readonly times: Float64Array;
  /** Flat: the number of kind k at time t is at t * kinds + k. */
  readonly counts: Int32Array;
}

/** The kind of each row, from 0 to kinds - 1. */
export interface Kinds {
  readonly kindOf: Int32Array | Uint8Array;
  readonly kinds: number;
}

/** Counts rows by time and kind. Whole numbers of moderate size (days) are not even sorted. @param times checked, 0 or more */
export function countTable(times: ArrayLike<number>, rows: Kinds): CountTable {
  const own = floatsOf(times);
  const largest = largestInTable(own);
  return largest === null ? countedInOrder(own, rows) : countedByDay(own, { ...rows, largest });
}

function countedByDay(times: Float64Array, rows: Kinds & { readonly largest: number }): CountTable {
  const { kindOf, kinds, largest } = rows;
  const all = new Int32Array((largest + 1) * kinds);
  for (let row = 0; row < times.length; row++) all[(times[row]! | 0) * kinds + kindOf[row]!]!++;
  const distinct = new Float64Array(largest + 1);
  let count = 0;
  for (let day = 0; day <= largest; day++) {
    let here = 0;
    for (let kind = 0; kind < kinds; kind++) here += all[day * kinds + kind]!;
    if (here === 0) continue;
    all.copyWithin(count * kinds, day * kinds, (day + 1) * kinds);
    distinct[count++] = day;
  }
  return { times: distinct.subarray(0, count), counts: all.subarray(0, count * kinds) };
}

function countedInOrder(times: Float64Array, { kindOf, kinds }: Kinds): CountTable {
  const { values, labels } = sortedWithLabels(times, kindOf);
  let different = 0;
  for (let i = 0; i < values.length; i++) if (i === 0 || values[i] !== values[i - 1]) different++;
  const counts = new Int32Array(different * kinds);
  let count = 0;
  for (let i = 0; i < values.length; i++) {
    const value = values[i]!;
    if (i === 0 || value !== values[count - 1]) values[count++] = value;
    counts[(count - 1) * kinds + labels[i]!]!++;
  }
  return { times: values.subarray(0, count), counts };
}

/** What curves need to know of each different time; RiskSets without where each row stands. */
export interface TimeCounts extends Pick<RiskSets, "times" | "n" | "total" | "entered"> {
  readonly atRisk: ArrayLike<number>;
  readonly events: ArrayLike<number>;
  readonly censored: ArrayLike<number>;
}

/** The same counts as prepareRiskSets, sooner where every row is at risk from the start and counts once. @throws ArgumentError as it does */
export function timeCounts(columns: TimeToEvent): TimeCounts {
  if (columns.weights !== undefined || columns.entries !== undefined) return prepareRiskSets(columns);
  checkTimeToEvent(columns);
  const kindOf = columns.events instanceof Uint8Array ? columns.events : new Uint8Array(columns.events);
  const kinds = 2;
  return countsOfTable(countTable(columns.times, { kindOf, kinds }), { kinds, firstEvent: 1 });
}

/** @param how firstEvent: all kinds from this one on are events; those before it censored, none if it is 0 */
export function countsOfTable(
  { times, counts }: CountTable,
  { kinds, firstEvent }: { readonly kinds: number; readonly firstEvent: 0 | 1 },
): TimeCounts {
  // plain arrays: results hand them on as they are
  const events = new Array<number>(times.length);
  const censored = new Array<number>(times.length);
  const atRisk = new Array<number>(times.length);
  let left = 0;
  for (let i = times.length - 1; i >= 0; i--) {
    let here = 0;
    for (let kind = firstEvent; kind < kinds; kind++) here += counts[i * kinds + kind]!;
    const gone = firstEvent === 0 ? 0 : counts[i * kinds]!;
    left += here + gone;
    events[i] = here;
    censored[i] = gone;
    atRisk[i] = left;
  }
  return { times, atRisk, events, censored, n: left, total: left, entered: null };
}
