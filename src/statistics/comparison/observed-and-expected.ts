import { indexOfCodes, rowsByStratum } from "../shared/codes.js";
import { power } from "../shared/power.js";
import { countTable } from "../survival/time-counts.js";
import { countsByGroup } from "./counts-by-group.js";
import type { GroupedTimes, TimeWeight } from "./grouped-times.js";

/** Sums over event times and strata, groups in ascending order of their code; the variance is flat by rows. */
export interface ObservedAndExpected {
  readonly groups: number[];
  readonly n: number[];
  readonly observed: number[];
  readonly expected: number[];
  readonly variance: Float64Array;
}

/** Sums of 0 for the groups there are, their rows counted, and the index of each row's group. */
export function sumsToFill(codes: ArrayLike<number>): { sums: ObservedAndExpected; group: Int32Array } {
  const { sums, group } = emptySums(codes);
  for (let row = 0; row < group.length; row++) sums.n[group[row]!]!++;
  return { sums, group };
}

/** The same before any row is counted. */
function emptySums(codes: ArrayLike<number>): { sums: ObservedAndExpected; group: Int32Array } {
  const { codes: groups, index: group } = indexOfCodes(codes);
  const size = groups.length;
  const sums = {
    groups,
    n: new Array<number>(size).fill(0),
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
  return power(before, weight.rho) * power(1 - before, weight.gamma ?? 0);
}

/** One time with events in one stratum: how many of all groups had it, were at risk, and what the time counts for. */
export interface EventTime {
  at: number;
  d: number;
  n: number;
  w: number;
}

/** Counts of one stratum, flat by times and groups. */
export interface StratumCounts {
  readonly count: number;
  readonly size: number;
  readonly events: ArrayLike<number>;
  readonly atRisk: ArrayLike<number>;
}

/** The times with events, ascending. The object handed over is used again for the next. */
export function forEachEventTime(
  stratum: StratumCounts,
  weight: TimeWeight,
  visit: (time: EventTime) => void,
): void {
  const { size, count, events, atRisk } = stratum;
  const time: EventTime = { at: 0, d: 0, n: 0, w: 1 };
  const shares = { n: 0, before: 1, cautious: 1 };
  for (let i = 0; i < count; i++) {
    let d = 0;
    let n = 0;
    for (let cell = i * size; cell < (i + 1) * size; cell++) {
      d += events[cell]!;
      n += atRisk[cell]!;
    }
    if (d === 0) continue;
    time.at = i;
    time.d = d;
    time.n = n;
    // divisions are what takes time here
    if (weight !== "equal") {
      shares.n = n;
      shares.cautious *= 1 - d / (n + 1);
      time.w = weightAt(weight, shares);
      shares.before *= 1 - d / n;
    }
    visit(time);
  }
}

/** Adds one stratum's sums. */
export function addStratum(sums: ObservedAndExpected, stratum: StratumCounts, weight: TimeWeight): void {
  const { size, events, atRisk } = stratum;
  const { observed, expected, variance } = sums;
  const share = new Float64Array(size);
  forEachEventTime(stratum, weight, ({ at, d, n, w }) => {
    const from = at * size;
    const perRow = 1 / n;
    for (let g = 0; g < size; g++) {
      share[g] = atRisk[from + g]! * perRow;
      observed[g]! += w * events[from + g]!;
      expected[g]! += w * d * share[g]!;
    }
    if (n > 1) addSpread(variance, share, d === 1 ? w * w : (w * w * d * (n - d)) / (n - 1));
  });
}

/** Adds the multinomial covariance of the shares times the spread. Its rows sum to 0, so what leaves the others goes to the diagonal. */
function addSpread(variance: Float64Array, share: Float64Array, spread: number): void {
  const size = share.length;
  for (let g = 0; g < size; g++)
    for (let h = 0; h < g; h++) {
      const product = spread * share[g]! * share[h]!;
      variance[g * size + h]! -= product;
      variance[h * size + g]! -= product;
      variance[g * size + g]! += product;
      variance[h * size + h]! += product;
    }
}

/** One stratum, all at risk from the start: counted without asking where each row stands. */
function countsOfAll(
  columns: Pick<GroupedTimes, "times" | "events">,
  { group, size }: { readonly group: Int32Array; readonly size: number },
): StratumCounts {
  const kindOf = new Int32Array(group.length);
  const happened = new Uint8Array(columns.events);
  for (let row = 0; row < kindOf.length; row++) kindOf[row] = 2 * group[row]! + happened[row]!;
  const { times, counts } = countTable(columns.times, { kindOf, kinds: 2 * size });
  const events = new Int32Array(times.length * size);
  const atRisk = new Int32Array(times.length * size);
  for (let cell = events.length - 1; cell >= 0; cell--) {
    const had = counts[2 * cell + 1]!;
    const later = cell + size < atRisk.length ? atRisk[cell + size]! : 0;
    events[cell] = had;
    atRisk[cell] = later + had + counts[2 * cell]!;
  }
  return { count: times.length, size, events, atRisk };
}

/** Observed and expected events of each group and their covariance, summed over strata. Linear in rows plus times by groups squared. */
export function observedAndExpected(columns: GroupedTimes, weight: TimeWeight): ObservedAndExpected {
  if (columns.strata === undefined && columns.entries === undefined) return ofOneStratum(columns, weight);
  const { sums, group } = sumsToFill(columns.groups);
  const size = sums.groups.length;
  for (const rows of rowsByStratum(columns))
    addStratum(sums, { ...countsByGroup(columns, { rows, group, size }), size }, weight);
  return sums;
}

function ofOneStratum(columns: GroupedTimes, weight: TimeWeight): ObservedAndExpected {
  const { sums, group } = emptySums(columns.groups);
  const size = sums.groups.length;
  const counts = countsOfAll(columns, { group, size });
  for (let g = 0; g < size; g++) sums.n[g] = counts.atRisk[g]!; // all of them, at the first time
  addStratum(sums, counts, weight);
  return sums;
}
