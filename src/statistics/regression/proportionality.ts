import { checkNumber } from "../arguments.js";
import type { Reason, TestResult } from "../figure.js";
import { checkSummedTies } from "./hazards/check-columns.js";
import { augmented, driftApproximation, driftScoreTest } from "./hazards/drift.js";
import { type HazardModel, hazardModel, stateOf } from "./hazards/model.js";
import type { Ties } from "./hazards/ties.js";
import { type TimeTransform, transformedTimes } from "./hazards/time-transform.js";
import type { HazardColumns } from "./hazards-layout.js";

export type { TimeTransform } from "./hazards/time-transform.js";

export interface ProportionalityOptions {
  /** Default "efron". */
  readonly ties?: Ties;
  /** Default "product-limit". */
  readonly transform?: TimeTransform;
  /** Default "score"; the older approximation is for comparison with figures that were computed by it. */
  readonly method?: "score" | "approximation-1994";
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

function silence({ fit }: HazardModel): Reason | null {
  return fit.status === "ok" || fit.status === "collinear" ? null : fit.status;
}

const collinear: TestResult = { statistic: null, df: 0, p: null, reason: "collinear" };

/**
 * Test of proportional hazards: the score test of adding covariate times g(t) to the regression, for each covariate and for all together.
 *
 * With V(t) the covariance of the covariates over the risk set at each event time (within its stratum), the added terms have the score
 * sum g(t) (x - mean(t)), information sum g^2 V and cross-information sum g V with the coefficients themselves. Large values: the hazard ratio
 * drifts with time. The approximation of 1994 takes V(t) to be the same at all times.
 *
 * @param options transform: default 1 less the left limit of the pooled product-limit curve, which no outlying time dominates. "log" needs
 *   times above 0.
 * @returns nulls with `no-rows`, `no-events`, `collinear`, `monotone-likelihood`, or `no-variance` (all events at one time)
 * @throws ArgumentError as hazardsRegression, for exact ties, and for a time of 0 with "log"
 * @source Grambsch & Therneau 1994, Biometrika 81:515, in its score-test form and as it was first given
 */
export function proportionalityTest(
  columns: HazardColumns,
  options: ProportionalityOptions = {},
): ProportionalityTest {
  const { ties = "efron", transform = "product-limit", method = "score" } = options;
  checkSummedTies(ties);
  if (transform === "log")
    for (let row = 0; row < columns.times.length; row++)
      checkNumber({ name: `times[${row}]`, value: columns.times[row] as number }, "positive");
  const model = hazardModel(columns, { ties });
  const { names } = columns.covariates;
  const reason = silence(model);
  if (reason !== null) {
    const none: TestResult = { statistic: null, df: 0, p: null, reason };
    return { names, covariates: names.map(() => none), global: none, transform, reason };
  }
  const { estimable } = model.result;
  const state = stateOf(model, ties);
  const g = transformedTimes(columns, model.layout, transform);
  if (method === "approximation-1994") {
    const { each, global } = driftApproximation(state, { g, inverse: model.inverse, estimable });
    return { names, covariates: names.map((_, j) => each(j)), global, transform, reason: null };
  }
  const sums = augmented(state, g);
  const covariates = names.map((_, j) =>
    estimable.includes(j) ? driftScoreTest(sums, { estimable, added: [j] }) : collinear,
  );
  const global = estimable.length > 0 ? driftScoreTest(sums, { estimable, added: estimable }) : collinear;
  return { names, covariates, global, transform, reason: null };
}
