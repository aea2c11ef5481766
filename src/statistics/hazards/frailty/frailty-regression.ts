import { ArgumentError, checkColumn, checkSameLength } from "../../shared/arguments.js";
import { indexOfCodes } from "../../shared/codes.js";
import { checkColumnNames, readOptions } from "../../shared/options.js";
import { hazardModel } from "../fit/model.js";
import { asDoubles } from "../layout/layout.js";
import { fitFailure } from "../prediction/baseline-table.js";
import { describeFrailty, ordinaryEnd } from "./describe-frailty.js";
import { frailtyProblem } from "./frailty-fit.js";
import type { FrailtyColumns, FrailtyHazardFit, FrailtyOptions, FrailtyVariance } from "./frailty-types.js";
import { frailtyColumnsNames, frailtyOptions } from "./frailty-types.js";
import { bestTheta, fitter, varianceAround, varianceAtZero } from "./frailty-variance.js";

function checkGroups({ groups, times, weights, clusters }: FrailtyColumns): void {
  const named = { name: "groups", values: groups };
  checkSameLength(named, { name: "times", values: times });
  checkColumn(named, "code");
  for (const [argument, values] of [
    ["weights", weights],
    ["clusters", clusters],
  ] as const)
    if (values !== undefined)
      throw new ArgumentError({
        argument,
        index: null,
        expected: "left out with a shared frailty, whose likelihood is that of whole rows",
        found: `${values.length} values`,
      });
}

/**
 * Proportional-hazards regression with a gamma frailty shared by the rows of a group (fingers of a person, persons of a site).
 *
 * The hazard of a row is u_j h0(t) exp(b'x), u_j gamma with mean 1 and variance theta, so ratios hold within a group. For a given theta
 * coefficients, baseline and frailties maximise the likelihood integrated over the frailties; theta maximises what is left. The integrated
 * log-likelihood is put on the scale of the partial one: at theta 0 it is the ordinary partial log-likelihood of the same ties.
 *
 * Standard errors of the coefficients are those at the estimated theta, its own uncertainty not counted; of theta, from the curvature of its
 * profile, with a profile-likelihood interval (lower limit 0 where the fall to 0 is less than the critical value). The test that theta is 0 is
 * the likelihood ratio, half of it standing at 0: p = P(chi-square with 1 df > LR) / 2.
 *
 * Degenerate data: the status of the ordinary fit where that has no finite coefficients; theta 0 where the likelihood falls from there (each
 * group one row, for one); `not-converged` where it rises beyond 1000.
 *
 * @param columns as hazardsRegression, with a group for each row; neither weights nor clusters
 * @throws ArgumentError naming the column and index at fault, for exact ties, weights or clusters
 * @source Clayton 1978, Biometrika 65:141; Nielsen, Gill, Andersen & Sorensen 1992, Scand J Stat 19:25 (EM); Therneau, Grambsch & Pankratz
 *   2003, J Comput Graph Stat 12:156 (penalised form); boundary: Self & Liang 1987, J Am Stat Assoc 82:605
 */
export function frailtyRegression(columns: FrailtyColumns, options: FrailtyOptions = {}): FrailtyHazardFit {
  checkColumnNames(frailtyColumnsNames, { columns });
  const { ties, level, theta } = readOptions(frailtyOptions, options);
  const { groups, ...rows } = columns;
  const model = hazardModel(rows, { ties, level });
  checkGroups(columns);
  const known = indexOfCodes(asDoubles(groups));
  const silent = fitFailure(model);
  if (silent !== null)
    return ordinaryEnd(model.fit, { codes: known.codes, variance: null, status: model.fit.status });
  const { layout, result } = model;
  const problem = frailtyProblem(layout, {
    ties,
    groups: known.index,
    count: known.codes.length,
    estimable: result.estimable,
  });
  const fitAt = fitter(problem, result.beta);
  const found = theta ?? bestTheta(fitAt);
  if (found === null)
    return ordinaryEnd(model.fit, { codes: known.codes, variance: null, status: "not-converged" });
  if (found === 0) {
    const variance = varianceAtZero(fitAt, result.logLikelihood, level);
    return ordinaryEnd(model.fit, { codes: known.codes, variance, status: model.fit.status });
  }
  const fit = fitAt(found);
  const variance: FrailtyVariance =
    theta === undefined
      ? varianceAround(fitter(problem, fit.beta), { fit, logLikelihoodAtZero: result.logLikelihood, level })
      : { estimate: theta, standardError: null, lower: null, upper: null };
  return describeFrailty(model, problem, {
    fit,
    codes: known.codes,
    variance,
    level,
    asked: theta === undefined,
  });
}
