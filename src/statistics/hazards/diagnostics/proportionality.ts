import { checkNumber } from "../../shared/arguments.js";
import { nothingTested } from "../../shared/covariates.js";
import type { Reason, TestResult } from "../../shared/figure.js";
import { checkColumnNames, type OptionsOf, oneOf, readOptions } from "../../shared/options.js";
import { sharesNotYet } from "../../survival/product-limit.js";
import { prepareRiskSets } from "../../survival/risk-sets.js";
import { type HazardModel, hazardModel, stateOf } from "../fit/model.js";
import { type HazardColumns, type HazardLayout, hazardColumnsNames } from "../layout/sorted-rows.js";
import { summedTieMethods } from "../layout/ties.js";
import { augmented, driftApproximation, driftScoreTest } from "./drift.js";

/** How time enters: share with the event just before it (pooled curve), rank of the time among all rows, the time itself, or its logarithm. */
const timeTransforms = ["product-limit", "rank", "identity", "log"] as const;
export type TimeTransform = (typeof timeTransforms)[number];

export const proportionalityOptions = {
  /** Default "efron". */
  ties: oneOf(summedTieMethods, "efron"),
  /** Default "product-limit". */
  transform: oneOf(timeTransforms, "product-limit"),
  /** Default "score"; the older approximation is for comparison with figures that were computed by it. */
  method: oneOf(["score", "approximation-1994"], "score"),
};

export interface ProportionalityOptions extends OptionsOf<typeof proportionalityOptions> {}

export interface ProportionalityTest {
  readonly names: readonly string[];
  /** One a covariate, each with 1 degree of freedom. */
  readonly covariates: readonly TestResult[];
  /** All together. */
  readonly global: TestResult;
  readonly transform: TimeTransform;
  readonly reason: Reason | null;
}

function reasonForNoTest({ fit }: HazardModel): Reason | null {
  return fit.status === "ok" || fit.status === "collinear" ? null : fit.status;
}

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
  checkColumnNames(hazardColumnsNames, { columns });
  const { ties, transform, method } = readOptions(proportionalityOptions, options);
  if (transform === "log")
    for (let row = 0; row < columns.times.length; row++)
      checkNumber({ name: `times[${row}]`, value: columns.times[row]! }, "positive");
  const model = hazardModel(columns, { ties });
  const { names } = columns.covariates;
  const reason = reasonForNoTest(model);
  if (reason !== null) {
    const none: TestResult = { statistic: null, df: 0, p: null, reason };
    return { names, covariates: names.map(() => none), global: none, transform, reason };
  }
  const { estimable } = model.result;
  const untested: TestResult = { statistic: null, df: 0, p: null, reason: nothingTested(names) };
  const state = stateOf(model, ties);
  const g = transformedTimes(columns, model.layout, transform);
  if (method === "approximation-1994") {
    const { each, global } = driftApproximation(state, {
      g,
      inverse: model.inverse,
      estimable,
      none: nothingTested(names),
    });
    return { names, covariates: names.map((_, j) => each(j)), global, transform, reason: null };
  }
  const sums = augmented(state, g);
  const covariates = names.map((_, j) =>
    estimable.includes(j) ? driftScoreTest(sums, { estimable, added: [j] }) : untested,
  );
  const global = estimable.length > 0 ? driftScoreTest(sums, { estimable, added: estimable }) : untested;
  return { names, covariates, global, transform, reason: null };
}

/** g(t) for each block. */
function transformedTimes(
  columns: HazardColumns,
  layout: HazardLayout,
  transform: TimeTransform,
): Float64Array {
  if (transform === "identity") return layout.blockTime;
  if (transform === "log") return layout.blockTime.map(Math.log);
  const { times, events, entries } = columns;
  const riskSets = prepareRiskSets({ times, events, ...(entries && { entries }) });
  const shares = sharesNotYet(riskSets);
  const at = new Map<number, number>();
  let rank = 0;
  riskSets.times.forEach((time, k) => {
    const d = riskSets.events[k]! + riskSets.censored[k]!;
    // tied times share their mean rank
    at.set(time, transform === "rank" ? rank + (d + 1) / 2 : 1 - (k === 0 ? 1 : shares[k - 1]!));
    rank += d;
  });
  return layout.blockTime.map((time) => at.get(time)!);
}
