import { chiSquareTest, onOriginalScale, ratioOfCoefficient } from "../hazards/fit/describe-fit.js";
import type { HazardRatio, HazardStatus } from "../hazards/layout/hazard-fit.js";
import { factorOver } from "../linear/newton.js";
import { factorSymmetric, invertFactored, quadraticForm } from "../linear/symmetric.js";
import { checkColumn, checkSameLength } from "../shared/arguments.js";
import { clusterIndex } from "../shared/clusters.js";
import { checkCovariates, nothingTested } from "../shared/covariates.js";
import type { Reason, TestResult } from "../shared/figure.js";
import { checkColumnNames, readOptions } from "../shared/options.js";
import { withoutRounding } from "../shared/sandwich-rounding.js";
import { checkTimesAndCauses } from "./causes.js";
import { ascend, type SubdistributionAscent } from "./subdistribution-ascent.js";
import { layOutSubdistribution, type SubdistributionLayout } from "./subdistribution-layout.js";
import { subdistributionSandwich } from "./subdistribution-sandwich.js";
import type {
  SubdistributionBaseline,
  SubdistributionColumns,
  SubdistributionFit,
  SubdistributionOptions,
} from "./subdistribution-types.js";
import { subdistributionColumnsNames, subdistributionOptions } from "./subdistribution-types.js";

/** @throws ArgumentError naming the column and index at fault */
export function checkSubdistributionColumns(columns: SubdistributionColumns): void {
  checkTimesAndCauses(columns);
  const times = { name: "times", values: columns.times };
  for (const name of ["censoringGroups", "clusters"] as const) {
    const values = columns[name];
    if (values === undefined) continue;
    checkSameLength({ name, values }, times);
    checkColumn({ name, values }, "code");
  }
  checkCovariates(columns.covariates, times);
}

function statusOf(ascent: SubdistributionAscent, layout: SubdistributionLayout): HazardStatus {
  if (layout.n === 0) return "no-rows";
  if (layout.events === 0) return "no-events";
  if (ascent.infinite.length > 0) return "monotone-likelihood";
  if (!ascent.converged) return "not-converged";
  return ascent.estimable.length < layout.size ? "collinear" : "ok";
}

/** Where there is no coefficient: why, and where its ratio was on its way to. */
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

function baselineOf(
  layout: SubdistributionLayout,
  { state }: SubdistributionAscent,
): SubdistributionBaseline {
  const seen = Array.from(layout.times.keys()).filter((at) => layout.eventsAt[at]! > 0);
  return {
    covariates: Array.from(layout.centre),
    times: seen.map((at) => layout.times[at]!),
    cumulativeHazard: seen.map((at) => state.hazard[at]!),
  };
}

function waldOf(
  sandwich: Float64Array,
  beta: Float64Array,
  { silent, names }: { readonly silent: Reason | null; readonly names: readonly string[] },
): TestResult {
  const factor = factorSymmetric(sandwich, { size: beta.length, tolerance: 1e-12 });
  if (silent) return chiSquareTest(null, 0, silent);
  const without = beta.some((value) => value !== 0) ? "no-variance" : nothingTested(names);
  return chiSquareTest(quadraticForm(factor, beta), factor.kept.length, without);
}

/**
 * Regression of the subdistribution hazard of one event: how covariates go with its cumulative incidence, other events being possible.
 *
 * F(t | x) = 1 - exp(-H(t) exp(b' x)). Those with another event before t stay in the risk set of t with weight G(t-) / G(T-), G the
 * product-limit curve of censoring, in which those with any event at a time count among those who could be censored at that time. Ties of
 * the event of interest by one denominator (Breslow). The weights are running products over the times: no table of rows by times.
 * Variance: inverse information times the sum of squared pulls times inverse information, a row's pull being its integral of w (x - mean)
 * by its martingale, and its part in estimating G (see subdistribution-sandwich.ts); summed within clusters where given; no small-sample
 * factor. With censoring groups each has its own G, taken as 0 after its last time.
 *
 * No delayed entry and no case weights. Without other events this is hazardsRegression with Breslow ties and robust variance. Degenerate
 * data: as hazardsRegression (`no-rows`, `no-events` of this cause, `collinear`, `monotone-likelihood`, `not-converged`).
 *
 * @param columns times: 0 or more; causes: 0 = censored, 1, 2, ...; covariates: finite numbers, categories already as 0/1 columns
 * @throws ArgumentError naming the column and index of a value at fault, or the option
 * @source Fine & Gray 1999, J Am Stat Assoc 94:496; clusters: Zhou, Fine, Latouche & Labopin 2012, Biostatistics 13:371
 */
export function subdistributionRegression(
  columns: SubdistributionColumns,
  options: SubdistributionOptions = {},
): SubdistributionFit {
  checkColumnNames(subdistributionColumnsNames, { columns });
  const { cause, level, maximumIterations, tolerance } = readOptions(subdistributionOptions, options);
  checkSubdistributionColumns(columns);
  const layout = layOutSubdistribution(columns, cause);
  const { scale } = layout;
  const { names } = columns.covariates;
  const ascent = ascend({ columns, layout, cause }, { maximumIterations, tolerance });
  const { beta, state } = ascent;
  const status = statusOf(ascent, layout);
  const silent: Reason | null = status === "no-rows" || status === "no-events" ? status : null;

  const infinite = new Set(ascent.infinite);
  const finite = new Set(silent ? [] : ascent.estimable.filter((j) => !infinite.has(j)));
  const inverse = invertFactored(factorOver(state.information, [...finite]));
  const cluster = clusterIndex(columns);
  const sandwich = withoutRounding(subdistributionSandwich({ layout, state }, { inverse, cluster }), inverse);
  const inUnits = (matrix: Float64Array) => onOriginalScale(matrix, { scale, finite: [...finite] });
  const roots = (matrix: readonly (readonly (number | null)[])[]): (number | null)[] =>
    matrix.map((line, j) => (line[j] == null ? null : Math.sqrt(line[j])));
  const covariance = inUnits(sandwich);
  const standardErrors = roots(covariance);
  const coefficients = names.map((_, j) => (finite.has(j) ? beta[j]! / scale[j]! : null));
  const ratios = names.map((name, j) => {
    const coefficient = coefficients[j] ?? null;
    const error = standardErrors[j] ?? null;
    if (coefficient !== null && error !== null)
      return ratioOfCoefficient(name, { coefficient, error, level });
    const reason = silent ?? (infinite.has(j) ? "monotone-likelihood" : "collinear");
    const limit = !infinite.has(j) ? null : beta[j]! > 0 ? "infinity" : "zero";
    return noRatio(name, reason, limit);
  });
  // pulls that sum to 0 over the clusters tell apart fewer coefficients than there are clusters
  const tooFew = finite.size > 0 && finite.size >= cluster.count ? "too-few-rows" : null;
  const noWald = silent ?? (infinite.size > 0 ? "monotone-likelihood" : tooFew);
  return {
    cause,
    names,
    coefficients,
    standardErrors,
    covariance,
    modelStandardErrors: roots(inUnits(inverse)),
    ratios,
    wald: waldOf(sandwich, beta, { silent: noWald, names }),
    logPseudoLikelihoodNull: silent ? null : ascent.logLikelihoodNull,
    logPseudoLikelihood: silent ? null : state.logLikelihood,
    baseline: silent || infinite.size > 0 ? null : baselineOf(layout, ascent),
    iterations: ascent.iterations,
    converged: ascent.converged && !silent,
    finalGradient: silent
      ? null
      : ascent.estimable.reduce((most, j) => Math.max(most, Math.abs(state.score[j]!)), 0),
    n: layout.n,
    events: layout.events,
    competing: layout.competing,
    level,
    status,
  };
}
