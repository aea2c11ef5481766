import { indexOfCodes } from "../../shared/codes.js";
import { distinctTimes } from "../../shared/distinct-times.js";
import type { TimeCounts } from "../../survival/time-counts.js";
import type { RiskSetTable } from "./risk-set-table.js";

/** Who was at risk and had the event, by time and kind of row, in one stratum; flat by times. */
export interface CountsByKind {
  readonly times: Float64Array;
  readonly kinds: number;
  readonly atRisk: Float64Array;
  readonly events: Float64Array;
}

/** The lines of each stratum in turn. */
export function linesByStratum({ times, strata }: RiskSetTable): number[][] {
  const { codes, index } = indexOfCodes(strata ?? new Int32Array(times.length));
  const lines = codes.map((): number[] => []);
  for (let line = 0; line < index.length; line++) lines[index[line]!]!.push(line);
  return lines;
}

/** Events of one cause; those of none where nobody had it. */
export const eventsOf = ({ events, times }: RiskSetTable, cause: number): ArrayLike<number> =>
  events[cause - 1] ?? new Float64Array(times.length);

/** Rows that leave at a line, by an event of any kind or without. */
export function leavingOf({ censored, events }: RiskSetTable): Float64Array {
  const leaving = Float64Array.from(censored);
  for (const ofCause of events)
    for (let line = 0; line < leaving.length; line++) leaving[line]! += ofCause[line]!;
  return leaving;
}

/** What the lines of a table come to, summed once for all strata: rows that leave, and those of them with the event. */
export interface LineCounts {
  readonly leaving: Float64Array;
  readonly own: ArrayLike<number>;
}

export const lineCounts = (table: RiskSetTable, cause: number): LineCounts => ({
  leaving: leavingOf(table),
  own: eventsOf(table, cause),
});

/** @param asked kindOf: of each of the lines listed, from 0 to kinds - 1 */
export function countsByKind(
  table: RiskSetTable,
  asked: LineCounts & {
    readonly lines: readonly number[];
    readonly kindOf: ArrayLike<number>;
    readonly kinds: number;
  },
): CountsByKind {
  const { lines, kindOf, kinds, own, leaving } = asked;
  const at = lines.map((line) => Math.max(0, table.times[line]!));
  const { times, position } = distinctTimes(at);
  const events = new Float64Array(times.length * kinds);
  // first how many more there are at risk after each time than at it
  const atRisk = new Float64Array(times.length * kinds);
  const start = new Float64Array(kinds);
  lines.forEach((line, i) => {
    const cell = position[i]! * kinds + kindOf[i]!;
    const change = table.entered[line]! - leaving[line]!;
    if (table.times[line]! < 0) start[kindOf[i]!]! += change;
    else atRisk[cell]! += change;
    events[cell]! += own[line]!;
  });
  for (let i = 0; i < times.length; i++)
    for (let kind = 0; kind < kinds; kind++) {
      const change = atRisk[i * kinds + kind]!;
      atRisk[i * kinds + kind] = start[kind]!;
      start[kind]! += change;
    }
  return { times, kinds, atRisk, events };
}

/** What curves need to know: all causes together by time, those of the cause in question, and late entries. */
export interface CountsForCurve {
  readonly counts: TimeCounts;
  readonly own: Float64Array;
}

/** @param asked group: its lines only; null for all */
export function countsForCurve(
  table: RiskSetTable,
  { cause, group }: { readonly cause: number; readonly group: number | null },
): CountsForCurve {
  const lines: number[] = [];
  for (let line = 0; line < table.times.length; line++)
    if (group === null || (table.groups?.[line] ?? 0) === group) lines.push(line);
  const leaving = leavingOf(table);
  const own = eventsOf(table, cause);
  const ending = lines.filter((line) => leaving[line]! > 0);
  const { times, position } = distinctTimes(ending.map((line) => table.times[line]!));
  const perTime = (): Float64Array => new Float64Array(times.length);
  const [ofCause, events, censored, atRisk] = [perTime(), perTime(), perTime(), perTime()];
  ending.forEach((line, i) => {
    const at = position[i]!;
    ofCause[at]! += own[line]!;
    censored[at]! += table.censored[line]!;
    events[at]! += leaving[line]! - table.censored[line]!;
  });
  const entered = enteredBy(table, lines);
  const total = entered.total[entered.total.length - 1] ?? 0;
  const late = entered.times.some((time) => time >= 0);
  let gone = 0;
  let next = 0;
  for (let i = 0; i < times.length; i++) {
    while (next < entered.times.length && entered.times[next]! < times[i]!) next++;
    atRisk[i] = (entered.total[next - 1] ?? 0) - gone;
    gone += events[i]! + censored[i]!;
  }
  return {
    counts: { times, atRisk, events, censored, n: total, total, entered: late ? entered : null },
    own: ofCause,
  };
}

/** Times after which rows came under observation, ascending, and how many had come by each. */
function enteredBy(table: RiskSetTable, lines: readonly number[]) {
  const coming = lines.filter((line) => table.entered[line]! > 0);
  const times = [...new Set(coming.map((line) => table.times[line]!))].sort((a, b) => a - b);
  const place = new Map(times.map((time, i) => [time, i]));
  const total = new Float64Array(times.length);
  for (const line of coming) total[place.get(table.times[line]!)!]! += table.entered[line]!;
  for (let i = 1; i < total.length; i++) total[i]! += total[i - 1]!;
  return { times: Float64Array.from(times), total };
}
