import { checkColumn, checkNumber, checkSameLength } from "../arguments.js";
import { chiSquareUpperTail, normalCritical, normalTwoSided } from "../distributions.js";
import type { Reason, TestResult } from "../figure.js";
import { factorSymmetric, invertFactored, quadraticForm, rowsOfMatrix } from "../linear/symmetric.js";
import { checkTimeToEvent } from "../survival/time-to-event.js";
import { checkCovariates } from "./covariates.js";
import type { HazardFit, HazardOptions, HazardRatio, HazardStatus } from "./hazard-fit.js";
import { type HazardColumns, type HazardLayout, layOut } from "./hazards-layout.js";
import { factorOver, maximise, type NewtonResult } from "./hazards-newton.js";
import { sandwich } from "./hazards-sandwich.js";

/** @throws ArgumentError naming the column and index at fault */
export function checkHazardColumns(columns: HazardColumns): void {
  checkTimeToEvent(columns);
  const times = { name: "times", values: columns.times };
  if (columns.strata) {
    checkSameLength({ name: "strata", values: columns.strata }, times);
    checkColumn({ name: "strata", values: columns.strata }, "code");
  }
  checkCovariates(columns.covariates, times);
}

const test = (statistic: number | null, df: number, reason: Reason | null): TestResult =>
  statistic === null || df === 0
    ? { statistic: null, df, p: null, reason: reason ?? "collinear" }
    : { statistic, df, p: chiSquareUpperTail(statistic, df), reason: null };

function statusOf(result: NewtonResult, layout: HazardLayout): HazardStatus {
  if (layout.n === 0) return "no-rows";
  if (layout.eventWeight === 0) return "no-events";
  if (result.infinite.length > 0) return "monotone-likelihood";
  if (!result.converged) return "not-converged";
  return result.estimable.length < layout.size ? "collinear" : "ok";
}

/** A ratio that a number cannot hold (a covariate in a unit far too large) is none. */
const heldBy = (ratio: number): number | null => (Number.isFinite(ratio) ? ratio : null);

/** Back from standard deviations to the caller's units, with null for what is not estimated. */
function onOriginalScale(
  matrix: Float64Array,
  { scale, finite }: { readonly scale: Float64Array; readonly finite: ReadonlySet<number> },
): (number | null)[][] {
  return rowsOfMatrix(matrix, scale.length).map((row, j) =>
    row.map((value, k) =>
      finite.has(j) && finite.has(k) ? value / ((scale[j] as number) * (scale[k] as number)) : null,
    ),
  );
}

const rootsOfDiagonal = (matrix: readonly (readonly (number | null)[])[]): (number | null)[] =>
  matrix.map((row, j) => (row[j] == null ? null : Math.sqrt(row[j])));

/**
 * Proportional-hazards regression by maximum partial likelihood: strata, case weights, delayed entry, start-stop rows, robust variance.
 *
 * Ties: Efron (default) or Breslow; with weights Efron's denominators carry the mean weight of the tied events. Standard errors from the
 * inverse information; with clusters also from the sandwich of score residuals summed within clusters, without small-sample factor, and
 * then intervals and p-values are the robust ones.
 *
 * Degenerate data: no rows or no events give nulls and that status. A covariate that is constant, or a combination of those listed
 * before it, within every risk set has no coefficient (`collinear`), the others do. Where the likelihood rises for ever, that covariate's
 * coefficient is null (`monotone-likelihood`, with the limit of its ratio); the likelihood-ratio and score tests and the other coefficients are
 * those of the limit, and there is no Wald test. Iterations that run out give their last values and `not-converged`.
 *
 * @param columns see TimeToEvent; covariates as finite numbers, categories already as 0/1 columns
 * @throws ArgumentError naming the column and index of a value at fault, or the option
 * @source Cox 1972, J R Stat Soc B 34:187; ties: Efron 1977, J Am Stat Assoc 72:557; Breslow 1974, Biometrics 30:89; robust variance: Lin & Wei
 *   1989, J Am Stat Assoc 84:1074; start-stop rows: Andersen & Gill 1982, Ann Stat 10:1100
 */
export function hazardsRegression(columns: HazardColumns, options: HazardOptions = {}): HazardFit {
  const { ties = "efron", level = 0.95, maximumIterations = 50, tolerance = 1e-8 } = options;
  checkHazardColumns(columns);
  checkNumber({ name: "maximumIterations", value: maximumIterations }, "count");
  checkNumber({ name: "tolerance", value: tolerance }, "positive");
  const z = normalCritical(level);
  const layout = layOut(columns);
  const { size, scale } = layout;
  const { names } = columns.covariates;
  const result = maximise(layout, { ties, maximumIterations, tolerance });
  const status = statusOf(result, layout);
  const silent: Reason | null = status === "no-rows" || status === "no-events" ? status : null;

  const infinite = new Set(result.infinite);
  const finite = new Set(silent ? [] : result.estimable.filter((j) => !infinite.has(j)));
  const factor = factorOver(result.information, [...finite]);
  const inverse = invertFactored(factor);
  const covariance = onOriginalScale(inverse, { scale, finite });
  const robust =
    columns.clusters && !silent ? sandwich(columns, { inverse, layout, beta: result.beta, ties }) : null;
  const robustCovariance = robust && onOriginalScale(robust, { scale, finite });
  const standardErrors = rootsOfDiagonal(covariance);
  const robustStandardErrors = robustCovariance && rootsOfDiagonal(robustCovariance);
  const coefficients = names.map((_, j) =>
    finite.has(j) ? (result.beta[j] as number) / (scale[j] as number) : null,
  );

  const hazardRatios = names.map((name, j): HazardRatio => {
    const coefficient = coefficients[j] as number | null;
    const error = (robustStandardErrors ?? standardErrors)[j] as number | null;
    if (coefficient === null || error === null) {
      const reason = silent ?? (infinite.has(j) ? "monotone-likelihood" : "collinear");
      const limit = !infinite.has(j) ? null : (result.beta[j] as number) > 0 ? "infinity" : "zero";
      return { name, estimate: null, lower: null, upper: null, z: null, p: null, reason, limit };
    }
    const [estimate, lower, upper] = [0, -z * error, z * error].map((by) =>
      heldBy(Math.exp(coefficient + by)),
    );
    const tested = error > 0 ? coefficient / error : null;
    return {
      name,
      estimate: estimate ?? null,
      lower: lower ?? null,
      upper: upper ?? null,
      z: tested,
      p: tested === null ? null : normalTwoSided(tested),
      reason: null,
      limit: null,
    };
  });

  const df = silent ? 0 : result.estimable.length;
  const noWald: Reason | null = silent ?? (infinite.size > 0 ? "monotone-likelihood" : null);
  const robustFactor = robust && factorSymmetric(robust, { size, tolerance: 1e-12 });
  return {
    names,
    coefficients,
    standardErrors,
    robustStandardErrors,
    covariance,
    robustCovariance,
    hazardRatios,
    likelihoodRatio: test(
      silent ? null : Math.max(0, 2 * (result.logLikelihood - result.logLikelihoodNull)),
      df,
      silent,
    ),
    wald: test(noWald ? null : quadraticOfInverse(result, [...finite]), df, noWald),
    robustWald:
      robustFactor &&
      test(noWald ? null : quadraticForm(robustFactor, result.beta), robustFactor.kept.length, noWald),
    score: test(silent ? null : result.scoreStatistic, df, silent),
    logLikelihoodNull: silent ? null : result.logLikelihoodNull,
    logLikelihood: silent ? null : result.logLikelihood,
    iterations: result.iterations,
    converged: result.converged && !silent,
    finalGradient: silent
      ? null
      : result.estimable.reduce((most, j) => Math.max(most, Math.abs(result.finalGradient[j] as number)), 0),
    n: layout.n,
    events: layout.events,
    ties,
    level,
    status,
  };
}

/** b' I b over the covariates with a finite estimate. */
function quadraticOfInverse({ beta, information }: NewtonResult, over: readonly number[]): number {
  let sum = 0;
  for (const j of over)
    for (const k of over)
      sum += (beta[j] as number) * (beta[k] as number) * (information[j * beta.length + k] as number);
  return sum;
}
