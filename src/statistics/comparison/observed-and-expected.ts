import { type CountsByGroup, countsByGroup, indexOfCodes, rowsByStratum } from "./counts-by-group.js";
import type { GroupedTimes, TimeWeight } from "./grouped-times.js";

export { indexOfCodes } from "./counts-by-group.js";

/** Sums over event times and strata, groups in ascending order of their code; the variance is flat by rows. */
export interface ObservedAndExpected {
  readonly groups: number[];
  readonly n: number[];
  readonly observed: number[];
  readonly expected: number[];
  readonly variance: Float64Array;
}

/** Sums of 0 for the groups there are, and the index of each row's group. */
export function emptySums(codes: ArrayLike<number>): { sums: ObservedAndExpected; group: Int32Array } {
  const { codes: groups, index: group } = indexOfCodes(codes);
  const size = groups.length;
  const n = new Array<number>(size).fill(0);
  for (let row = 0; row < group.length; row++) n[group[row] as number]!++;
  const sums = {
    groups,
    n,
    observed: new Array<number>(size).fill(0),
    expected: new Array<number>(size).fill(0),
    variance: new Float64Array(size * size),
  };
  return { sums, group };
}

interface Shares {
  readonly n: number;
  /** Pooled share without the event just before the time. */
  readonly before: number;
  /** Product of (1 - d / (n + 1)) up to and including the time. */
  readonly cautious: number;
}

function weightAt(weight: TimeWeight, { n, before, cautious }: Shares): number {
  if (weight === "equal") return 1;
  if (weight === "at-risk") return n;
  if (weight === "root-at-risk") return Math.sqrt(n);
  if (weight === "peto-prentice") return cautious;
  return before ** weight.rho * (1 - before) ** (weight.gamma ?? 0);
}

/** One time with events in one stratum: how many of all groups had it, were at risk, and what the time counts for. */
export interface EventTime {
  at: number;
  d: number;
  n: number;
  w: number;
}

/** The times with events, ascending. The object handed over is used again for the next. */
export function forEachEventTime(
  stratum: CountsByGroup & { readonly size: number },
  weight: TimeWeight,
  visit: (time: EventTime) => void,
): void {
  const { size, count, events, atRisk } = stratum;
  const time: EventTime = { at: 0, d: 0, n: 0, w: 1 };
  const shares = { n: 0, before: 1, cautious: 1 };
  for (let at = 0; at < count; at++) {
    let d = 0;
    let n = 0;
    for (let cell = at * size; cell < (at + 1) * size; cell++) {
      d += events[cell] as number;
      n += atRisk[cell] as number;
    }
    if (d === 0) continue;
    time.at = at;
    time.d = d;
    time.n = n;
    shares.n = n;
    shares.cautious *= 1 - d / (n + 1);
    time.w = weightAt(weight, shares);
    visit(time);
    shares.before *= 1 - d / n;
  }
}

/** Adds one stratum's sums. */
export function addStratum(
  sums: ObservedAndExpected,
  stratum: CountsByGroup & { readonly size: number },
  weight: TimeWeight,
): void {
  const { size, events, atRisk } = stratum;
  const { observed, expected, variance } = sums;
  forEachEventTime(stratum, weight, ({ at, d, n, w }) => {
    const from = at * size;
    const spread = n > 1 ? (w * w * d * (n - d)) / (n - 1) : 0;
    for (let g = 0; g < size; g++) {
      const share = (atRisk[from + g] as number) / n;
      observed[g]! += w * (events[from + g] as number);
      expected[g]! += w * d * share;
      for (let h = 0; h < size; h++)
        variance[g * size + h]! +=
          spread * ((g === h ? share : 0) - (share * (atRisk[from + h] as number)) / n);
    }
  });
}

/** Observed and expected events of each group and their covariance, summed over strata. Linear in rows plus times by groups squared. */
export function observedAndExpected(columns: GroupedTimes, weight: TimeWeight): ObservedAndExpected {
  const { sums, group } = emptySums(columns.groups);
  const size = sums.groups.length;
  for (const rows of rowsByStratum(columns))
    addStratum(sums, { ...countsByGroup(columns, { rows, group, size }), size }, weight);
  return sums;
}
