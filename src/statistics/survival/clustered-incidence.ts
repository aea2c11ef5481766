import { clusterIndex, rowsByIndex } from "../shared/clusters.js";
import type { CountsOfCause } from "./incidence-variance.js";
import type { RiskSets } from "./risk-sets.js";
import { remaining } from "./robust-variance.js";

/** Rows as the variance needs them: who belongs together, and who had the cause in question. */
export interface ClusteredRows {
  readonly times: ArrayLike<number>;
  readonly clusters?: ArrayLike<number>;
  readonly causes: ArrayLike<number>;
  readonly cause: number;
}

/** Part of the terms of a sum that is only rounding. */
const rounding = 1e-13;

/** Running totals of what one row at risk throughout contributes, and what an event adds on its own time. */
interface Increments {
  /** Of H and Q, up to and including each time. */
  readonly h: Float64Array;
  readonly q: Float64Array;
  /** 1 / (n - d), 0 once nobody is left; and S(v-) / n. */
  readonly perLeft: Float64Array;
  readonly direct: Float64Array;
  readonly incidence: Float64Array;
}

function incrementsOf({ atRisk, events, own, eventFree }: CountsOfCause): Increments {
  const count = own.length;
  const empty = () => new Float64Array(count);
  const found = { h: empty(), q: empty(), perLeft: empty(), direct: empty(), incidence: empty() };
  let h = 0;
  let q = 0;
  let incidence = 0;
  for (let i = 0; i < count; i++) {
    const n = atRisk[i]!;
    const before = i === 0 ? 1 : eventFree[i - 1]!;
    const mine = own[i]!;
    const left = remaining(n, events[i]!);
    incidence += (before * mine) / n;
    // once nobody is left event-free the incidence rises no further: what would be infinite is multiplied by 0
    const alpha = left > 0 && events[i]! > 0 ? 1 / left - 1 / n : 0;
    found.perLeft[i] = left > 0 ? 1 / left : 0;
    found.direct[i] = before / n;
    h += alpha;
    q -= incidence * alpha + (before * mine) / (n * n);
    found.h[i] = h;
    found.q[i] = q;
    found.incidence[i] = incidence;
  }
  return found;
}

/** Sums over clusters of the products of A1, A2 and B, kept up to date as one cluster changes. */
function productsOf(count: number) {
  const parts = [0, 1, 2].map(() => new Float64Array(count)) as [Float64Array, Float64Array, Float64Array];
  const sums = new Float64Array(9);
  const change = (k: number, by: readonly [number, number, number]): void => {
    for (let i = 0; i < 3; i++)
      for (let j = 0; j < 3; j++) {
        const [a, b] = [parts[i]![k]!, parts[j]![k]!];
        sums[3 * i + j]! += (a + by[i]!) * (b + by[j]!) - a * b;
      }
    for (let i = 0; i < 3; i++) parts[i]![k]! += by[i]!;
  };
  return { sums, change };
}

/**
 * Variance of the cumulative incidence F of one cause at each time by the infinitesimal jackknife, summed within clusters.
 *
 * The derivative of F(t) by the weight of row i, Y saying whether it is at risk and e, e_k whether it has any event, or this cause, is
 *   sum over v <= t of (F(t) - F(v)) h_i(v) + S(v-) (e_k(v) / n_v - Y(v) d_kv / n_v^2),
 *   h_i(v) = Y(v) (1 / (n_v - d_v) - 1 / n_v) - e(v) / (n_v - d_v),
 * and the variance is the sum over clusters of their rows' squared sum. Written as F(t) H + Q, where H and Q of a cluster change only when
 * one of its rows enters or leaves, the work is linear in rows and no table of rows by times is held. Without clusters each row is its own.
 *
 * @source Aalen & Johansen 1978, Scand J Stat 5:141; Efron & Stein 1981, Ann Stat 9:586 (jackknife); sums within clusters: Lin & Wei 1989,
 *   J Am Stat Assoc 84:1074
 */
export function robustVarianceOfIncidence(
  riskSets: RiskSets,
  { rows, counts }: { readonly rows: ClusteredRows; readonly counts: CountsOfCause },
): Float64Array {
  const { rowTime, rowStart } = riskSets;
  const count = counts.own.length;
  const { h, q, perLeft, direct, incidence } = incrementsOf(counts);
  const cluster = clusterIndex(rows);
  const { sums, change } = productsOf(cluster.count);
  const leaving = rowsByIndex(rowTime, count);
  const entering = rowsByIndex(rowStart ?? new Int32Array(riskSets.n), count);
  const variance = new Float64Array(count);
  let size = 0; // largest terms so far
  for (let at = 0; at < count; at++) {
    const [h0, q0] = at === 0 ? [0, 0] : [h[at - 1]!, q[at - 1]!];
    for (let i = entering.start[at]!; i < entering.start[at + 1]!; i++)
      change(cluster.of[entering.rows[i]!]!, [-h0, -q0, 1]);
    const [h1, q1, f] = [h[at]!, q[at]!, incidence[at]!];
    for (let i = leaving.start[at]!; i < leaving.start[at + 1]!; i++) {
      const row = leaving.rows[i]!;
      const cause = rows.causes[row]!;
      const taken = cause > 0 ? perLeft[at]! : 0;
      const given = cause === rows.cause ? direct[at]! : 0;
      change(cluster.of[row]!, [h1 - taken, q1 + f * taken + given, -1]);
    }
    const along = [f, 1, f * h1 + q1] as const;
    let sum = 0;
    let terms = 0;
    for (let i = 0; i < 3; i++)
      for (let j = 0; j < 3; j++) {
        const term = along[i]! * along[j]! * sums[3 * i + j]!;
        sum += term;
        terms += Math.abs(term);
      }
    size = Math.max(size, terms);
    // rows that cancel within their cluster leave rounding behind, not a variance
    variance[at] = sum > rounding * size ? sum : 0;
  }
  return variance;
}
