import { countUpTo, distinctTimes } from "../survival/distinct-times.js";
import { rowsByIndex } from "../survival/robust-variance.js";
import type { GroupedTimes, TimeWeight } from "./grouped-times.js";

/** Sums over event times and strata, groups in ascending order of their code; the variance is flat by rows. */
export interface ObservedAndExpected {
  readonly groups: number[];
  readonly n: number[];
  readonly observed: number[];
  readonly expected: number[];
  readonly variance: Float64Array;
}

/** Different codes, ascending, and the index of each row's code among them. */
export function indexOfCodes(codes: ArrayLike<number>): { codes: number[]; index: Int32Array } {
  const sorted = [...new Set(Array.from(codes))].sort((a, b) => a - b);
  const place = new Map(sorted.map((code, at) => [code, at]));
  return { codes: sorted, index: Int32Array.from(codes, (code) => place.get(code) as number) };
}

/** Counts by time and group in one stratum, flat by times. */
interface CountsByGroup {
  readonly count: number;
  readonly events: Float64Array;
  readonly atRisk: Float64Array;
}

function countsByGroup(
  columns: GroupedTimes,
  stratum: { readonly rows: Int32Array; readonly group: Int32Array; readonly size: number },
): CountsByGroup {
  const { rows, group, size } = stratum;
  const { times, position } = distinctTimes(Float64Array.from(rows, (row) => columns.times[row] as number));
  const cells = times.length * size;
  const events = new Float64Array(cells);
  const leaving = new Float64Array(cells);
  const starting = new Float64Array(cells);
  for (let i = 0; i < rows.length; i++) {
    const row = rows[i] as number;
    const cell = (position[i] as number) * size + (group[row] as number);
    leaving[cell]!++;
    if (columns.events[row] === 1) events[cell]!++;
    if (columns.entries)
      starting[countUpTo(times, columns.entries[row] as number) * size + (group[row] as number)]!++;
  }
  const atRisk = new Float64Array(cells);
  for (let cell = cells - 1; cell >= 0; cell--) {
    const after = cell + size;
    const later = after < cells ? (atRisk[after] as number) - (starting[after] as number) : 0;
    atRisk[cell] = later + (leaving[cell] as number);
  }
  return { count: times.length, events, atRisk };
}

function weightAt(weight: TimeWeight, at: { readonly atRisk: number; readonly before: number }): number {
  if (weight === "equal") return 1;
  if (weight === "at-risk") return at.atRisk;
  if (weight === "root-at-risk") return Math.sqrt(at.atRisk);
  return at.before ** weight.rho * (1 - at.before) ** (weight.gamma ?? 0);
}

/** Adds one stratum's sums. */
function addStratum(sums: ObservedAndExpected, stratum: CountsByGroup, weight: TimeWeight): void {
  const size = sums.groups.length;
  let before = 1;
  for (let at = 0; at < stratum.count; at++) {
    const own = stratum.events.subarray(at * size, (at + 1) * size);
    const exposed = stratum.atRisk.subarray(at * size, (at + 1) * size);
    let d = 0;
    let n = 0;
    for (let g = 0; g < size; g++) {
      d += own[g] as number;
      n += exposed[g] as number;
    }
    if (d === 0) continue;
    const w = weightAt(weight, { atRisk: n, before });
    const spread = n > 1 ? (w * w * d * (n - d)) / (n - 1) : 0;
    for (let g = 0; g < size; g++) {
      const share = (exposed[g] as number) / n;
      sums.observed[g]! += w * (own[g] as number);
      sums.expected[g]! += w * d * share;
      for (let h = 0; h < size; h++)
        sums.variance[g * size + h]! +=
          spread * ((g === h ? share : 0) - (share * (exposed[h] as number)) / n);
    }
    before *= 1 - d / n;
  }
}

/** Observed and expected events of each group and their covariance, summed over strata. Linear in rows plus times by groups squared. */
export function observedAndExpected(columns: GroupedTimes, weight: TimeWeight): ObservedAndExpected {
  const { codes: groups, index: group } = indexOfCodes(columns.groups);
  const size = groups.length;
  const sums: ObservedAndExpected = {
    groups,
    n: new Array<number>(size).fill(0),
    observed: new Array<number>(size).fill(0),
    expected: new Array<number>(size).fill(0),
    variance: new Float64Array(size * size),
  };
  for (let row = 0; row < group.length; row++) sums.n[group[row] as number]!++;
  const strata = indexOfCodes(columns.strata ?? new Int32Array(columns.times.length));
  const ordered = rowsByIndex(strata.index, strata.codes.length);
  for (let s = 0; s < strata.codes.length; s++) {
    const rows = ordered.rows.subarray(ordered.start[s], ordered.start[s + 1]);
    addStratum(sums, countsByGroup(columns, { rows, group, size }), weight);
  }
  return sums;
}
