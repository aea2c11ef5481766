import { ArgumentError, checkColumn, checkSameLength } from "../../shared/arguments.js";
import { checkCovariates } from "../../shared/covariates.js";
import type { Reason } from "../../shared/figure.js";
import { checkColumnNames, type Read, readOptions } from "../../shared/options.js";
import { joinAlike } from "./alike-groups.js";
import { type FoundVariance, findMatrix, findRatio } from "./find-variance.js";
import { byName, type FixedSetting, functionalsOf, jointTest, termsOf } from "./fixed-effects.js";
import { centreAndScale, type GroupSums, groupSums, residualsOf } from "./group-sums.js";
import { informationOf } from "./information.js";
import type { MixedColumns, MixedFit, MixedOptions, MixedStatus } from "./mixed-types.js";
import { mixedColumnsNames, mixedOptions } from "./mixed-types.js";
import { fitWithout } from "./no-fit.js";
import { adjustedCovariance } from "./small-sample.js";
import { componentsOf, noFigure, predictionsOf, varianceTest } from "./variance-figures.js";

function checkMixedColumns(columns: MixedColumns): void {
  const response = { name: "response", values: columns.response };
  checkColumn(response, "finite");
  checkCovariates(columns.covariates, response);
  checkSameLength({ name: "groups", values: columns.groups }, response);
  checkColumn({ name: "groups", values: columns.groups }, "code");
  if (columns.slope === undefined) return;
  checkSameLength({ name: "slope", values: columns.slope }, response);
  checkColumn({ name: "slope", values: columns.slope }, "finite");
}

type Settings = Required<Read<typeof mixedOptions>>;

function settingsOf(columns: MixedColumns, options: MixedOptions): Settings {
  const asked = readOptions(mixedOptions, options);
  const { method, level, together, varianceIntervals } = asked;
  const inference = asked.inference ?? (method === "reml" ? "kenward-roger" : "satterthwaite");
  if (inference === "kenward-roger" && method === "ml")
    throw new ArgumentError({
      argument: "inference",
      index: null,
      expected: '"satterthwaite" or "normal" with method "ml": the correction is defined for "reml"',
      found: inference,
    });
  together.forEach((terms, i) => {
    const unknown = terms.find((term) => !columns.covariates.names.includes(term));
    if (unknown !== undefined)
      throw new ArgumentError({
        argument: "together",
        index: i,
        expected: `names of covariates (${columns.covariates.names.join(", ")})`,
        found: `"${unknown}"`,
      });
  });
  return { method, level, together, varianceIntervals, inference };
}

/** A response that the covariates explain but for this part of its squares leaves nothing to model. */
const nothingLeft = 1e-24;

/** Why the variances cannot be told apart, or null. */
function obstacle(sums: GroupSums, response: ArrayLike<number>): Reason | null {
  const { n, p, codes, counts, rr } = sums;
  if (n === 0) return "no-rows";
  if (n <= p) return "too-few-rows";
  if (codes.length < 2) return "one-group";
  if (counts.every((count) => count < 2)) return "too-few-rows";
  let squares = 0;
  for (let row = 0; row < n; row++) squares += response[row]! ** 2;
  return rr <= nothingLeft * squares ? "no-variance" : null;
}

/**
 * Linear regression of repeated measurements with random intercepts, or random intercepts and slopes, of groups.
 *
 * y = X b + u + v t + e, with (u, v) normal of mean 0 and any 2 x 2 covariance matrix, e normal with one variance. The likelihood, restricted
 * (REML) by default, is maximised exactly: residual variance and b are profiled out; for intercepts alone the root of the derivative is found, all
 * roots compared; for slopes the triangular root of the covariance matrix is free, so that a variance of 0 or a correlation of 1 is an ordinary
 * point, and then said (`boundary`). Work grows with the rows once, and with the groups an iteration; groups may be of any sizes.
 *
 * b: generalised least squares, covariance C = (X' V^-1 X)^-1. Kenward-Roger (default with REML): C corrected for the estimated variances,
 * degrees of freedom from the moments of F, by the expected information of the variances, also at a boundary. Satterthwaite: 2 v^2 / Var v by
 * the observed information; a variance that is 0 counts as known. Variance components: profile intervals of the (restricted) likelihood.
 *
 * Degenerate data: no rows, no more rows than coefficients, one group, groups of one row each, or nothing left within groups give nulls
 * with the reason in each figure. A covariate that adds nothing is `collinear`. A slope covariate that is constant is left out and its
 * deviation is `collinear`.
 *
 * @param columns response in any unit; groups whole numbers
 * @throws ArgumentError naming the column and index of a value at fault; an unknown name in `together`; Kenward-Roger with "ml"
 * @source Laird & Ware 1982, Biometrics 38:963; restricted likelihood: Patterson & Thompson 1971, Biometrika 58:545; Kenward & Roger 1997,
 *   Biometrics 53:983; Fai & Cornelius 1996, J Stat Comput Simul 54:363; boundary test: Self & Liang 1987, J Am Stat Assoc 82:605, Stram & Lee
 *   1994, Biometrics 50:1171
 * @example
 * mixedRegression({ response: [1, 3, 5, 7], covariates: { names: [], columns: [] }, groups: [1, 1, 2, 2] }).coefficients // => [4]
 */
export function mixedRegression(columns: MixedColumns, options: MixedOptions = {}): MixedFit {
  checkColumnNames(mixedColumnsNames, { columns });
  checkMixedColumns(columns);
  const settings = settingsOf(columns, options);
  const { method, inference, level, varianceIntervals: intervals } = settings;
  const asksSlope = columns.slope !== undefined;
  const hasSlope = columns.slope !== undefined && centreAndScale(columns.slope).scale > 0;
  const residuals = residualsOf(columns);
  const interceptOnly = groupSums(columns, { random: "intercept", residuals });
  const whole = hasSlope ? groupSums(columns, { random: "slope", residuals }) : interceptOnly;
  const names = ["intercept", ...columns.covariates.names];
  const reason = obstacle(whole, columns.response);
  const sums = reason ? whole : joinAlike(whole);
  const found = reason ? null : hasSlope ? findMatrix(sums, method) : findRatio(sums, method);
  if (found === null)
    return fitWithout({ names, sums, reason: reason ?? "no-variance", settings, hasSlope: asksSlope });

  const information = informationOf(sums, { at: found.at, method });
  const adjusted = method === "reml" ? adjustedCovariance(information) : null;
  const fixed: FixedSetting = { sums, found, information, adjusted, inference, names, level };
  const functionals = functionalsOf(fixed);
  const terms = termsOf(fixed, functionals);
  const variance = { sums, found, method, intervals, level };
  const components = componentsOf(variance);
  const parameters = sums.p + (sums.q === 1 ? 2 : 4);
  return {
    names,
    coefficients: terms.map((term) => term.coefficient),
    standardErrors: terms.map((term) => term.standardError),
    terms,
    covariance: byName(functionals, information.covariance),
    adjustedCovariance: adjusted && byName(functionals, adjusted),
    jointTests: settings.together.map((set) => jointTest(fixed, { terms: set, functionals })),
    components:
      asksSlope && !hasSlope ? { ...components, slopeDeviation: noFigure("collinear") } : components,
    varianceTest: varianceTest(variance, hasSlope ? joinAlike(interceptOnly) : null),
    predictions: predictionsOf(whole, found),
    logLikelihood: -found.at.value / 2,
    aic: found.at.value + 2 * parameters,
    method,
    inference,
    level,
    n: sums.n,
    groups: sums.codes.length,
    rank: sums.p,
    iterations: found.iterations,
    converged: found.converged,
    finalGradient: found.finalGradient,
    status: statusOf(found, sums.p < names.length || asksSlope !== hasSlope),
  };
}

function statusOf(found: FoundVariance, isCollinear: boolean): MixedStatus {
  if (!found.converged) return "not-converged";
  if (found.boundary) return "boundary";
  return isCollinear ? "collinear" : "ok";
}
