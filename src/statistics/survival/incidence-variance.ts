import { remaining } from "./robust-variance.js";

/** Counts at each time, and the share without any event after it. */
export interface CountsOfCause {
  readonly atRisk: ArrayLike<number>;
  /** Events of all causes, and of the one in question. */
  readonly events: ArrayLike<number>;
  readonly own: ArrayLike<number>;
  readonly eventFree: ArrayLike<number>;
}

/** Part of the terms of a variance that is only rounding. */
const rounding = 1e-13;

/** What is added less what is taken off; where nearly all of it goes off again, as where everybody has had the event, there is no variance. */
function differenceOf(added: number, taken: number): number {
  const difference = added - taken;
  return difference > rounding * (added + taken) ? difference : 0;
}

const freeBefore = (counts: CountsOfCause, at: number): number => (at === 0 ? 1 : counts.eventFree[at - 1]!);

/**
 * The delta-method (Greenwood-type) variance of the incidence F at each time, as a recursion whose terms are never negative:
 * sum over u <= t of (F(t) - F(u))^2 d / (n (n - d)) + S(u-)^2 (n - d_k) d_k / n^3 - 2 (F(t) - F(u)) S(u-) d_k / n^2.
 */
export function deltaVariance(counts: CountsOfCause): Float64Array {
  const { atRisk, events, own } = counts;
  const variance = new Float64Array(own.length);
  let hazard = 0; // sum of a = d / (n (n - d))
  let hazardByRise = 0; // sum of a g, g = rise since
  let hazardByRise2 = 0; // sum of a g^2
  let direct = 0; // sum of S^2 (n - dk) dk / n^3
  let cross = 0; // sum of c = S dk / n^2
  let crossByRise = 0; // sum of g c
  for (let i = 0; i < own.length; i++) {
    const n = atRisk[i]!;
    const d = events[i]!;
    const dk = own[i]!;
    const before = freeBefore(counts, i);
    const rise = (before * dk) / n;
    hazardByRise2 += 2 * rise * hazardByRise + rise * rise * hazard;
    hazardByRise += rise * hazard;
    crossByRise += rise * cross;
    // this time's own terms start with g = 0
    const left = remaining(n, d);
    // once nobody is left event-free the incidence rises no further, so this term would stay multiplied by 0
    if (d > 0 && left > 0) hazard += d / (n * left);
    direct += (before * before * (n - dk) * dk) / (n * n * n);
    cross += (before * dk) / (n * n);
    variance[i] = differenceOf(hazardByRise2 + direct, 2 * crossByRise);
  }
  return variance;
}

/** Binomial correction of a tied count; of fractional counts below 1 there is none to make. */
const tied = (events: number, n: number): number => (events > 1 ? 1 - (events - 1) / (n - 1) : 1);

/**
 * Aalen's variance of the incidence F at each time, with g = F(t) - F(u): sum over u <= t of (1 - g / S(u))^2 v_k + (g / S(u))^2 v_o, where v =
 * S(u-)^2 d (1 - (d - 1) / (n - 1)) / n^2 for the d events of this cause (v_k) and of the others (v_o). Where S(u) is 0 the terms in g are
 * left out: F rises no further.
 */
export function aalenVariance(counts: CountsOfCause): Float64Array {
  const { atRisk, events, own, eventFree } = counts;
  const variance = new Float64Array(own.length);
  let direct = 0; // sum of v_k
  let slope = 0; // sum of v_k / S
  let slopeByRise = 0; // sum of g v_k / S
  let curve = 0; // sum of (v_k + v_o) / S^2
  let curveByRise = 0;
  let curveByRise2 = 0;
  for (let i = 0; i < own.length; i++) {
    const n = atRisk[i]!;
    const dk = own[i]!;
    const others = events[i]! - dk;
    const before = freeBefore(counts, i);
    const after = eventFree[i]!;
    const rise = (before * dk) / n;
    curveByRise2 += 2 * rise * curveByRise + rise * rise * curve;
    curveByRise += rise * curve;
    slopeByRise += rise * slope;
    const unit = (before * before) / (n * n);
    const mine = unit * dk * tied(dk, n);
    direct += mine;
    if (after > 0) {
      slope += mine / after;
      curve += (mine + unit * others * tied(others, n)) / (after * after);
    }
    variance[i] = differenceOf(direct + curveByRise2, 2 * slopeByRise);
  }
  return variance;
}
