import { factorSymmetric, quadraticForm } from "../../linear/symmetric.js";
import { chiSquareUpperTail } from "../../shared/distributions.js";
import type { Reason, TestResult } from "../../shared/figure.js";
import { meanOverDenominators } from "../fit/score-residuals.js";
import { informationOf } from "../likelihood/information.js";
import type { RiskState } from "../likelihood/risk-state.js";

/** Information weighted by powers of g, and the score of the added terms. */
export interface Augmented {
  readonly plain: Float64Array;
  readonly once: Float64Array;
  readonly twice: Float64Array;
  readonly score: Float64Array;
}

/** @param g of each block */
export function augmented(state: RiskState, g: Float64Array): Augmented {
  const { size, n } = state.layout;
  const work = new Float64Array(n);
  const weighted = (factor: Float64Array | null): Float64Array => {
    const information = new Float64Array(size * size);
    informationOf(state, information, { work, factor });
    return information;
  };
  return {
    plain: weighted(null),
    once: weighted(g),
    twice: weighted(g.map((value) => value * value)),
    score: scoreOfDrift(state, g, "weighted"),
  };
}

/** Sum over events of g(t) (x - mean(t)), each event times its weight or not. */
function scoreOfDrift(state: RiskState, g: Float64Array, weights: "weighted" | "plain"): Float64Array {
  const { n, x, event, weight, blockOf } = state.layout;
  return Float64Array.from(x, (column, j) => {
    let sum = 0;
    for (let i = 0; i < n; i++) {
      if (event[i] === 0) continue;
      const block = blockOf[i]!;
      const apart = column[i]! - meanOverDenominators(state, j, block);
      const w = weights === "weighted" && weight ? weight[i]! : 1;
      sum += w * g[block]! * apart;
    }
    return sum;
  });
}

/** Score test of some added terms, the coefficients of all covariates being re-estimated. */
export function driftScoreTest(
  sums: Augmented,
  question: { readonly estimable: readonly number[]; readonly added: readonly number[] },
): TestResult {
  const { estimable, added } = question;
  const size = sums.score.length;
  const whole = estimable.length + added.length;
  const matrix = new Float64Array(whole * whole);
  const place = [...estimable, ...added];
  for (let a = 0; a < whole; a++)
    for (let b = 0; b < whole; b++) {
      const power = (a >= estimable.length ? 1 : 0) + (b >= estimable.length ? 1 : 0);
      const source = power === 0 ? sums.plain : power === 1 ? sums.once : sums.twice;
      matrix[a * whole + b] = source[place[a]! * size + place[b]!]!;
    }
  const right = Float64Array.from(place, (j, a) => (a >= estimable.length ? sums.score[j]! : 0));
  const factor = factorSymmetric(matrix, { size: whole, tolerance: 1e-10 });
  const df = factor.kept.filter((a) => a >= estimable.length).length;
  if (df < added.length) return { statistic: null, df, p: null, reason: "no-variance" };
  const statistic = quadraticForm(factor, right);
  return { statistic, df, p: chiSquareUpperTail(statistic, df), reason: null };
}

/**
 * The approximation that takes the covariance of the covariates to be the same at all event times: with g centred over the d events,
 * V the inverse information and T = sum over events of g (x - mean), T' V T d / sum g^2, and for one covariate
 * (T' V)_j^2 d / (V_jj sum g^2).
 */
export function driftApproximation(
  state: RiskState,
  settings: {
    readonly g: Float64Array;
    readonly inverse: Float64Array;
    readonly estimable: readonly number[];
    readonly none: Reason;
  },
): { readonly each: (j: number) => TestResult; readonly global: TestResult } {
  const { blockEvents, size } = state.layout;
  const { g, inverse, estimable, none } = settings;
  let d = 0;
  let sum = 0;
  blockEvents.forEach((count, block) => {
    d += count;
    if (count > 0) sum += count * g[block]!;
  });
  const centred = g.map((value) => value - sum / d);
  let squares = 0;
  blockEvents.forEach((count, block) => {
    if (count > 0) squares += count * centred[block]! ** 2;
  });
  const t = scoreOfDrift(state, centred, "plain");
  const moved = Float64Array.from(t, (_, j) =>
    t.reduce((total, value, k) => total + value * inverse[j * size + k]!, 0),
  );
  const outcome = (statistic: number, df: number): TestResult =>
    squares > 0 && df > 0
      ? { statistic, df, p: chiSquareUpperTail(statistic, df), reason: null }
      : { statistic: null, df: 0, p: null, reason: df > 0 ? "no-variance" : none };
  const whole = estimable.reduce((total, j) => total + t[j]! * moved[j]!, 0);
  return {
    each: (j) =>
      outcome((moved[j]! ** 2 * d) / (inverse[j * size + j]! * squares), estimable.includes(j) ? 1 : 0),
    global: outcome((whole * d) / squares, estimable.length),
  };
}
