import type { TestResult } from "../../shared/figure.js";
import type { Covariances } from "./estimates.js";
import type { LimitFit } from "./limit-fit.js";
import type { LogisticStatus } from "./logistic-types.js";
import { type Climb, climb } from "./newton.js";
import type { Objective } from "./objective.js";
import { chiSquare, noTest, scoreTest, waldTest } from "./overall-tests.js";
import type { Iterations } from "./prepare.js";

/** What is said of a fit as a whole. */
export interface Overall {
  readonly empty: Climb;
  readonly likelihoodRatio: TestResult;
  readonly score: TestResult;
  readonly wald: TestResult;
  readonly iterations: number;
  readonly converged: boolean;
  readonly finalGradient: number;
  readonly status: LogisticStatus;
}

/** Largest value with some variables 0. */
function fitWithout(
  objective: Objective,
  of: { readonly slopes: readonly number[]; readonly iterations: Iterations },
): Climb {
  const along = of.slopes.map((k) => {
    const unit = new Float64Array(objective.size);
    unit[k] = 1;
    return unit;
  });
  return climb(objective, {
    maximumIterations: of.iterations.maximumIterations,
    tolerance: of.iterations.tolerance,
    start: new Float64Array(objective.size),
    held: { along, values: along.map(() => 0) },
  });
}

function statusOf(outcome: { separated: boolean; converged: boolean; collinear: boolean }): LogisticStatus {
  if (!outcome.converged) return "not-converged";
  if (outcome.separated) return "separation";
  return outcome.collinear ? "collinear" : "ok";
}

/** By the robust covariance where there are clusters: their scores sum to 0, so that they tell apart fewer slopes than they are. */
function waldOf(
  point: Float64Array,
  { slopes, covariances }: { readonly slopes: readonly number[]; readonly covariances: Covariances },
): TestResult {
  const { model, robust } = covariances;
  const tooFew = robust === null || (robust !== undefined && slopes.length >= robust.clusters);
  return tooFew
    ? noTest("too-few-rows", slopes.length)
    : waldTest({ point, covariance: robust?.covariance ?? model }, slopes);
}

/**
 * Tests that all slopes are 0, and how the fit went.
 *
 * @param of whole: the objective of all rows; slopes: its variables but the intercepts (the first column of the basis is constant, so that the
 *   others being 0 is every covariate's coefficient being 0)
 */
export function overallOf(
  fit: LimitFit,
  of: {
    readonly whole: Objective;
    readonly slopes: readonly number[];
    readonly covariances: Covariances;
    readonly iterations: Iterations;
    readonly collinear: boolean;
  },
): Overall {
  const { whole, slopes } = of;
  const df = slopes.length;
  const { point, end, outcome, iterations } = fit.climb;
  const empty = fitWithout(whole, of);
  const converged = outcome === "converged";
  const separated = fit.recession !== null;
  const none = df === 0 ? noTest(of.collinear ? "collinear" : "no-covariates") : null;
  return {
    empty,
    likelihoodRatio: none ?? chiSquare(Math.max(0, 2 * (end.value - empty.end.value)), df),
    score: none ?? scoreTest(empty.end, df),
    wald: none ?? (separated ? noTest("monotone-likelihood", df) : waldOf(point, of)),
    iterations,
    converged,
    finalGradient: end.gradient.reduce((most, value) => Math.max(most, Math.abs(value)), 0),
    status: statusOf({ separated, converged, collinear: of.collinear }),
  };
}
