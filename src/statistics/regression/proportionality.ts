import { checkNumber } from "../arguments.js";
import { chiSquareUpperTail } from "../distributions.js";
import type { Reason, TestResult } from "../figure.js";
import { factorSymmetric, quadraticForm } from "../linear/symmetric.js";
import { sharesNotYet } from "../survival/product-limit.js";
import { prepareRiskSets } from "../survival/risk-sets.js";
import { type HazardColumns, type HazardLayout, layOut } from "./hazards-layout.js";
import { addBlock, type Likelihood } from "./hazards-likelihood.js";
import { maximise, type NewtonResult } from "./hazards-newton.js";
import { passBackward, type Ties } from "./hazards-pass.js";
import { checkHazardColumns } from "./hazards-regression.js";
import type { RiskSums } from "./hazards-sums.js";

/** How time enters: share with the event just before it (pooled curve), rank of the time among all rows, the time itself, or its logarithm. */
export type TimeTransform = "product-limit" | "rank" | "identity" | "log";

export interface ProportionalityOptions {
  /** Default "efron". */
  readonly ties?: Ties;
  /** Default "product-limit". */
  readonly transform?: TimeTransform;
}

export interface ProportionalityTest {
  readonly names: readonly string[];
  /** One a covariate, each with 1 degree of freedom. */
  readonly covariates: readonly TestResult[];
  /** All together. */
  readonly global: TestResult;
  readonly transform: TimeTransform;
  readonly reason: Reason | null;
}

/** g(t) for each block. */
function transformed(columns: HazardColumns, layout: HazardLayout, transform: TimeTransform): Float64Array {
  if (transform === "identity") return layout.blockTime;
  if (transform === "log") return layout.blockTime.map(Math.log);
  const {
    covariates: _covariates,
    strata: _strata,
    weights: _weights,
    clusters: _clusters,
    ...rows
  } = columns;
  const riskSets = prepareRiskSets(rows);
  const shares = sharesNotYet(riskSets);
  const at = new Map<number, number>();
  let rank = 0;
  riskSets.times.forEach((time, k) => {
    const d = (riskSets.events[k] as number) + (riskSets.censored[k] as number);
    // tied times share their mean rank
    at.set(time, transform === "rank" ? rank + (d + 1) / 2 : 1 - (k === 0 ? 1 : (shares[k - 1] as number)));
    rank += d;
  });
  return layout.blockTime.map((time) => at.get(time) as number);
}

/** Information of each event time, weighted by powers of g, and the score of the added terms. */
interface Augmented {
  readonly plain: Float64Array;
  readonly once: Float64Array;
  readonly twice: Float64Array;
  readonly score: Float64Array;
}

function augmented(
  layout: HazardLayout,
  fit: { readonly beta: Float64Array; readonly ties: Ties; readonly g: Float64Array },
): Augmented {
  const { size } = layout;
  const result: Augmented = {
    plain: new Float64Array(size * size),
    once: new Float64Array(size * size),
    twice: new Float64Array(size * size),
    score: new Float64Array(size),
  };
  const own: Likelihood = {
    logLikelihood: 0,
    score: new Float64Array(size),
    information: new Float64Array(size * size),
  };
  const how = { ties: fit.ties, mean: new Float64Array(size) };
  const risk = new Float64Array(layout.n);
  passBackward(layout, { beta: fit.beta, risk }, (block: number, sums: RiskSums) => {
    own.score.set(sums.dx);
    own.information.fill(0);
    addBlock(own, sums, how);
    const g = fit.g[block] as number;
    for (let j = 0; j < size; j++) {
      result.score[j]! += g * (own.score[j] as number);
      for (let k = 0; k < size; k++) {
        const value = own.information[Math.max(j, k) * size + Math.min(j, k)] as number;
        result.plain[j * size + k]! += value;
        result.once[j * size + k]! += g * value;
        result.twice[j * size + k]! += g * g * value;
      }
    }
  });
  return result;
}

/** Score test of some added terms, the coefficients of all covariates being re-estimated. */
function scoreTest(
  sums: Augmented,
  question: {
    readonly estimable: readonly number[];
    readonly added: readonly number[];
    readonly size: number;
  },
): TestResult {
  const { estimable, added, size } = question;
  const whole = estimable.length + added.length;
  const matrix = new Float64Array(whole * whole);
  const place = [...estimable, ...added];
  for (let a = 0; a < whole; a++)
    for (let b = 0; b < whole; b++) {
      const power = (a >= estimable.length ? 1 : 0) + (b >= estimable.length ? 1 : 0);
      const source = power === 0 ? sums.plain : power === 1 ? sums.once : sums.twice;
      matrix[a * whole + b] = source[(place[a] as number) * size + (place[b] as number)] as number;
    }
  const right = Float64Array.from(place, (j, a) => (a >= estimable.length ? (sums.score[j] as number) : 0));
  const factor = factorSymmetric(matrix, { size: whole, tolerance: 1e-10 });
  const df = factor.kept.filter((a) => a >= estimable.length).length;
  if (df < added.length) return { statistic: null, df, p: null, reason: "no-variance" };
  const statistic = quadraticForm(factor, right);
  return { statistic, df, p: chiSquareUpperTail(statistic, df), reason: null };
}

function silence(result: NewtonResult, layout: HazardLayout): Reason | null {
  if (layout.n === 0) return "no-rows";
  if (layout.eventWeight === 0) return "no-events";
  if (result.infinite.length > 0) return "monotone-likelihood";
  return result.converged ? null : "not-converged";
}

/**
 * Test of proportional hazards: the score test of adding covariate times g(t) to the regression, for each covariate and for all together.
 *
 * With V(t) the covariance of the covariates over the risk set at each event time (within its stratum), the added terms have the score
 * sum g(t) (x - mean(t)), information sum g^2 V and cross-information sum g V with the coefficients themselves. Large values: the hazard ratio
 * drifts with time.
 *
 * @param options transform: default 1 less the left limit of the pooled product-limit curve, which no outlying time dominates. "log" needs
 *   times above 0.
 * @returns nulls with `no-rows`, `no-events`, `collinear`, `monotone-likelihood`, or `no-variance` (all events at one time)
 * @throws ArgumentError as hazardsRegression, and for a time of 0 with "log"
 * @source Grambsch & Therneau 1994, Biometrika 81:515, in its score-test form
 */
export function proportionalityTest(
  columns: HazardColumns,
  options: ProportionalityOptions = {},
): ProportionalityTest {
  const { ties = "efron", transform = "product-limit" } = options;
  checkHazardColumns(columns);
  if (transform === "log")
    for (let row = 0; row < columns.times.length; row++)
      checkNumber({ name: `times[${row}]`, value: columns.times[row] as number }, "positive");
  const layout = layOut(columns);
  const { size } = layout;
  const { names } = columns.covariates;
  const result = maximise(layout, { ties, maximumIterations: 50, tolerance: 1e-8 });
  const reason = silence(result, layout);
  if (reason !== null) {
    const none: TestResult = { statistic: null, df: 0, p: null, reason };
    return { names, covariates: names.map(() => none), global: none, transform, reason };
  }
  const { estimable } = result;
  const sums = augmented(layout, { beta: result.beta, ties, g: transformed(columns, layout, transform) });
  const covariates = names.map(
    (_, j): TestResult =>
      estimable.includes(j)
        ? scoreTest(sums, { estimable, added: [j], size })
        : { statistic: null, df: 0, p: null, reason: "collinear" },
  );
  const global: TestResult =
    estimable.length > 0
      ? scoreTest(sums, { estimable, added: estimable, size })
      : { statistic: null, df: 0, p: null, reason: "collinear" };
  return { names, covariates, global, transform, reason: null };
}
