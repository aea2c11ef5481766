import { type CountsByGroup, countsByGroup } from "../comparison/counts-by-group.js";
import { type ObservedAndExpected, sumsToFill } from "../comparison/observed-and-expected.js";
import { rowsByStratum } from "../shared/codes.js";
import { power } from "../shared/power.js";
import type { GroupedCauses } from "./grouped-causes.js";

/** What one stratum looked like at each time: flat by times and groups, or one value a time. */
interface Course {
  readonly size: number;
  readonly count: number;
  readonly atRisk: Float64Array;
  /** Events of the cause compared, and of the others. */
  readonly own: Float64Array;
  readonly other: Float64Array;
  /** Share of each group without any event, before and after the time. */
  readonly freeBefore: Float64Array;
  readonly freeAfter: Float64Array;
  /** Incidence common to all groups, before and after the time. */
  readonly commonBefore: Float64Array;
  readonly commonAfter: Float64Array;
}

function eventsByCause(
  columns: GroupedCauses,
  settings: { counts: CountsByGroup; rows: Int32Array; group: Int32Array; size: number; cause: number },
): { own: Float64Array; other: Float64Array } {
  const { counts, rows, group, size, cause } = settings;
  const own = new Float64Array(counts.count * size);
  for (let i = 0; i < rows.length; i++) {
    const row = rows[i]!;
    if (columns.causes[row] === cause) own[counts.position[i]! * size + group[row]!]!++;
  }
  return { own, other: counts.events.map((all, cell) => all - own[cell]!) };
}

const sumAt = (values: Float64Array, at: number, size: number): number => {
  let sum = 0;
  for (let g = 0; g < size; g++) sum += values[at * size + g]!;
  return sum;
};

/** From the first time to the last: the curves, and what the scores take from each time. */
function follow(
  sums: ObservedAndExpected,
  counts: Pick<Course, "count" | "size" | "atRisk" | "own" | "other">,
  rho: number,
): Course {
  const { count, size, atRisk, own, other } = counts;
  const freeBefore = new Float64Array(count * size);
  const freeAfter = new Float64Array(count * size);
  const commonBefore = new Float64Array(count);
  const commonAfter = new Float64Array(count);
  const free = new Float64Array(size).fill(1);
  const incidence = new Float64Array(size);
  let common = 0;
  for (let i = 0; i < count; i++) {
    const d = sumAt(own, i, size);
    let exposed = 0;
    let adjusted = 0;
    for (let g = 0; g < size; g++) {
      const n = atRisk[i * size + g]!;
      if (n === 0) continue;
      exposed += n / free[g]!;
      adjusted += (n * (1 - incidence[g]!)) / free[g]!;
    }
    const weight = power(Math.max(0, 1 - common), rho);
    for (let g = 0; g < size; g++) {
      const cell = i * size + g;
      const n = atRisk[cell]!;
      const before = free[g]!;
      freeBefore[cell] = before;
      if (n > 0) {
        const mine = own[cell]!;
        sums.observed[g]! += weight * mine;
        sums.expected[g]! += (weight * d * n * (1 - incidence[g]!)) / (before * adjusted);
        incidence[g]! += (before * mine) / n;
        free[g] = (before * (n - mine - other[cell]!)) / n;
      }
      freeAfter[cell] = free[g]!;
    }
    commonBefore[i] = common;
    if (d > 0) common += d / exposed;
    commonAfter[i] = common;
  }
  return { ...counts, freeBefore, freeAfter, commonBefore, commonAfter };
}

/** Correction of a variance for events at one time among few at risk. */
const tied = (events: number, among: number): number =>
  events > 1 ? (among > 1 ? 1 - (events - 1) / (among - 1) : 0) : 1;

/**
 * Variance of the scores, from the last time to the first.
 *
 * With e_r = Y_r / S_r(t-), a_kr = W e_r ([k = r] - e_k / e.) and C_kr the sum of a_kr d / (e. (1 - F(t-))) over the times still to come,
 * an event of this cause in group r moves the score of group k by a_kr + (1 - (1 - F) / S_r) C_kr, another event by -(1 - F) / S_r C_kr, each times
 * S_r(t-) / Y_r; under equal incidences the first kind is expected d / (e. S_r(t-)) e_r S_r(t-) times, the second is counted.
 */
// biome-ignore lint/complexity/noExcessiveCognitiveComplexity: one recursion over times with sums over groups in it
function addVariance(variance: Float64Array, course: Course, rho: number): void {
  const { count, size, atRisk, own, other, freeBefore, freeAfter, commonBefore, commonAfter } = course;
  const later = new Float64Array(size * size); // C, by group r and score k
  const exposure = new Float64Array(size); // e
  const moved = new Float64Array(size);
  for (let i = count - 1; i >= 0; i--) {
    const d = sumAt(own, i, size);
    if (d + sumAt(other, i, size) === 0) continue;
    for (let g = 0; g < size; g++) {
      const n = atRisk[i * size + g]!;
      exposure[g] = n === 0 ? 0 : n / freeBefore[i * size + g]!;
    }
    const exposed = exposure.reduce((sum, e) => sum + e, 0);
    const weight = power(Math.max(0, 1 - commonBefore[i]!), rho);
    const left = 1 - commonAfter[i]!;
    const rise = 1 - commonBefore[i]!;
    const hazard = d > 0 && rise !== 0 ? d / (exposed * rise) : 0;
    for (let r = 0; r < size; r++) {
      const n = atRisk[i * size + r]!;
      if (n === 0) continue;
      const before = freeBefore[i * size + r]!;
      const after = freeAfter[i * size + r]!;
      const ratio = after > 0 ? left / after : 0;
      const direct = (k: number): number =>
        weight * exposure[r]! * ((k === r ? 1 : 0) - exposure[k]! / exposed);
      if (d > 0) {
        const spread = (tied(d, exposed * before) * before * d) / (exposed * n);
        for (let k = 0; k < size; k++) moved[k] = direct(k) + (1 - ratio) * later[r * size + k]!;
        addSquares(variance, moved, spread);
      }
      const others = other[i * size + r]!;
      if (others > 0 && after > 0) {
        const spread = (tied(others, n) * before * before * others) / (n * n);
        for (let k = 0; k < size; k++) moved[k] = ratio * later[r * size + k]!;
        addSquares(variance, moved, spread);
      }
      for (let k = 0; k < size; k++) later[r * size + k]! += direct(k) * hazard;
    }
  }
}

function addSquares(variance: Float64Array, moved: Float64Array, by: number): void {
  const size = moved.length;
  for (let k = 0; k < size; k++)
    for (let l = 0; l < size; l++) variance[k * size + l]! += by * moved[k]! * moved[l]!;
}

/** Observed and expected events of the cause in each group and their covariance, summed over strata. Times by groups squared. */
export function graySums(
  columns: GroupedCauses,
  options: { readonly cause: number; readonly rho: number },
): ObservedAndExpected {
  const { cause, rho } = options;
  const { times, groups, strata } = columns;
  const events = Uint8Array.from(columns.causes, (one) => (one > 0 ? 1 : 0));
  const anyEvent = { times, events, groups, ...(strata && { strata }) };
  const { sums, group } = sumsToFill(groups);
  const size = sums.groups.length;
  for (const rows of rowsByStratum(anyEvent)) {
    const counts = countsByGroup(anyEvent, { rows, group, size });
    const { own, other } = eventsByCause(columns, { counts, rows, group, size, cause });
    const { count, atRisk } = counts;
    addVariance(sums.variance, follow(sums, { count, size, atRisk, own, other }, rho), rho);
  }
  return sums;
}
