import type { NewtonResult } from "../../linear/newton.js";
import { factorSymmetric, quadraticForm, rowsOfMatrix } from "../../linear/symmetric.js";
import { nothingTested } from "../../shared/covariates.js";
import { chiSquareUpperTail, normalCritical, normalTwoSided } from "../../shared/distributions.js";
import type { Reason, TestResult } from "../../shared/figure.js";
import type { HazardFit, HazardRatio, HazardStatus } from "../layout/hazard-fit.js";
import type { HazardLayout } from "../layout/sorted-rows.js";
import type { Ties } from "../layout/ties.js";

/** What has to be known of the rows behind a fit to describe it. */
export type FittedRows = Pick<HazardLayout, "n" | "events" | "eventWeight" | "scale" | "size">;

export function statusOf(
  result: NewtonResult,
  layout: Pick<FittedRows, "n" | "eventWeight" | "size">,
): HazardStatus {
  if (layout.n === 0) return "no-rows";
  if (layout.eventWeight === 0) return "no-events";
  if (result.infinite.length > 0) return "monotone-likelihood";
  if (!result.converged) return "not-converged";
  return result.estimable.length < layout.size ? "collinear" : "ok";
}

/** Chi-square test, or none with the reason: the one passed. */
export const chiSquareTest = (statistic: number | null, df: number, otherwise: Reason): TestResult =>
  statistic === null || df === 0
    ? { statistic: null, df, p: null, reason: otherwise }
    : { statistic, df, p: chiSquareUpperTail(statistic, df), reason: null };

/** A ratio that a number cannot hold (a covariate in a unit far too large) is none. */
const heldBy = (ratio: number): number | null => (Number.isFinite(ratio) ? ratio : null);

/** Back from standard deviations to the caller's units, with null for what is not estimated. */
export function onOriginalScale(
  matrix: Float64Array,
  { scale, finite }: { readonly scale: Float64Array; readonly finite: readonly number[] },
): (number | null)[][] {
  return rowsOfMatrix(matrix, scale.length).map((row, j) =>
    row.map((value, k) =>
      finite.includes(j) && finite.includes(k) ? value / (scale[j]! * scale[k]!) : null,
    ),
  );
}

const rootsOfDiagonal = (matrix: readonly (readonly (number | null)[])[]): (number | null)[] =>
  matrix.map((row, j) => (row[j] == null ? null : Math.sqrt(row[j])));

/** Ratio with its normal interval and test, from a coefficient and its standard error. */
export function ratioOfCoefficient(
  name: string,
  estimated: { readonly coefficient: number; readonly error: number; readonly level: number },
): HazardRatio {
  const { coefficient, error, level } = estimated;
  const half = normalCritical(level) * error;
  const estimate = heldBy(Math.exp(coefficient));
  if (!(error > 0)) return { ...noRatio(name, "no-variance", null), estimate };
  const z = coefficient / error;
  return {
    name,
    estimate,
    lower: heldBy(Math.exp(coefficient - half)),
    upper: heldBy(Math.exp(coefficient + half)),
    z,
    p: normalTwoSided(z),
    reason: null,
    limit: null,
  };
}

const noRatio = (name: string, reason: Reason, limit: "zero" | "infinity" | null): HazardRatio => ({
  name,
  estimate: null,
  lower: null,
  upper: null,
  z: null,
  p: null,
  reason,
  limit,
});

/** b' I b over some covariates. */
function quadraticOfInverse({ beta, information }: NewtonResult, over: readonly number[]): number {
  let sum = 0;
  for (const j of over) for (const k of over) sum += beta[j]! * beta[k]! * information[j * beta.length + k]!;
  return sum;
}

/** The end of the iterations in the caller's units, with tests and ratios. */
// biome-ignore lint/complexity/noExcessiveCognitiveComplexity: the conditions of every column of a fit, one after the other
export function describeFit(
  fitted: {
    readonly names: readonly string[];
    readonly layout: Omit<FittedRows, "eventWeight">;
    readonly result: NewtonResult;
    readonly finite: readonly number[];
    readonly status: HazardStatus;
  },
  estimated: {
    readonly inverse: Float64Array;
    readonly robust: Float64Array | null;
    /** Clusters that give anything to the sandwich. */
    readonly clusters: number | null;
    readonly robustScore: { readonly statistic: number | null; readonly df: number } | null;
    readonly ties: Ties;
    readonly level: number;
  },
): HazardFit {
  const { names, layout, result, finite, status } = fitted;
  const { inverse, robust, ties, level } = estimated;
  const { scale, size } = layout;
  const silent: Reason | null = status === "no-rows" || status === "no-events" ? status : null;
  const covariance = onOriginalScale(inverse, { scale, finite });
  const robustCovariance = robust && onOriginalScale(robust, { scale, finite });
  const standardErrors = rootsOfDiagonal(covariance);
  const robustStandardErrors = robustCovariance && rootsOfDiagonal(robustCovariance);
  const coefficients = names.map((_, j) => (finite.includes(j) ? result.beta[j]! / scale[j]! : null));
  const hazardRatios = names.map((name, j): HazardRatio => {
    const coefficient = coefficients[j] ?? null;
    const error = (robustStandardErrors ?? standardErrors)[j] ?? null;
    if (coefficient !== null && error !== null)
      return ratioOfCoefficient(name, { coefficient, error, level });
    if (silent) return noRatio(name, silent, null);
    if (!result.infinite.includes(j)) return noRatio(name, "collinear", null);
    return noRatio(name, "monotone-likelihood", result.beta[j]! > 0 ? "infinity" : "zero");
  });
  const none = silent ?? nothingTested(names);
  const df = silent ? 0 : result.estimable.length;
  const noWald: Reason | null = silent ?? (result.infinite.length > 0 ? "monotone-likelihood" : null);
  // scores that sum to 0 over the clusters tell apart fewer coefficients than there are clusters
  const tooFew = finite.length > 0 && finite.length >= (estimated.clusters ?? Number.POSITIVE_INFINITY);
  const noRobustWald: Reason | null = noWald ?? (tooFew ? "too-few-rows" : null);
  const robustFactor = robust && factorSymmetric(robust, { size, tolerance: 1e-12 });
  const gain = 2 * (result.logLikelihood - result.logLikelihoodNull);
  return {
    names,
    coefficients,
    standardErrors,
    robustStandardErrors,
    covariance,
    robustCovariance,
    hazardRatios,
    likelihoodRatio: chiSquareTest(silent ? null : Math.max(0, gain), df, none),
    wald: chiSquareTest(noWald ? null : quadraticOfInverse(result, finite), df, noWald ?? none),
    robustWald:
      robustFactor &&
      chiSquareTest(
        noRobustWald ? null : quadraticForm(robustFactor, result.beta),
        robustFactor.kept.length,
        noRobustWald ?? (finite.length > 0 ? "no-variance" : none),
      ),
    score: chiSquareTest(silent ? null : result.scoreStatistic, df, none),
    robustScore:
      estimated.robustScore &&
      chiSquareTest(
        estimated.robustScore.statistic,
        estimated.robustScore.df,
        estimated.robustScore.statistic === null ? "too-few-rows" : none,
      ),
    logLikelihoodNull: silent ? null : result.logLikelihoodNull,
    logLikelihood: silent ? null : result.logLikelihood,
    iterations: result.iterations,
    converged: result.converged && !silent,
    finalGradient: silent
      ? null
      : result.estimable.reduce((most, j) => Math.max(most, Math.abs(result.finalGradient[j]!)), 0),
    n: layout.n,
    events: layout.events,
    ties,
    level,
    status,
  };
}
