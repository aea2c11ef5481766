import { ArgumentError, checkColumn, checkSameLength } from "../shared/arguments.js";
import { checkCovariates, nothingTested } from "../shared/covariates.js";
import { fUpperTail, tCritical, tTwoSided } from "../shared/distributions.js";
import type { Reason } from "../shared/figure.js";
import { checkColumnNames, readOptions } from "../shared/options.js";
import { leastSquares } from "./least-squares.js";
import type { LinearColumns, LinearFit, LinearOptions } from "./linear-types.js";
import { linearColumnsNames, linearOptions } from "./linear-types.js";
import { covarianceOf } from "./linear-variance.js";

function checkLinearColumns(columns: LinearColumns): void {
  const response = { name: "response", values: columns.response };
  checkColumn(response, "finite");
  checkCovariates(columns.covariates, response);
  if (columns.clusters === undefined) return;
  checkSameLength({ name: "clusters", values: columns.clusters }, response);
  checkColumn({ name: "clusters", values: columns.clusters }, "code");
}

/** Whether residuals are no more than the rounding of the responses. */
function isRounding(residuals: Float64Array, response: ArrayLike<number>): boolean {
  let most = 0;
  for (let row = 0; row < response.length; row++) most = Math.max(most, Math.abs(response[row]!));
  return residuals.every((e) => Math.abs(e) <= 8 * Number.EPSILON * most);
}

/**
 * Linear regression by least squares (Householder QR), with an intercept.
 *
 * Variance: classical s^2 (X'X)^-1; hc3 (X'X)^-1 X' diag(e^2 / (1 - h)^2) X (X'X)^-1; clustered: residuals summed within clusters, times
 * G / (G - 1) (n - 1) / (n - rank), with G - 1 degrees of freedom; reduced-bias: residuals of a cluster times (I - H_gg)^(-1/2), degrees of
 * freedom by Satterthwaite, for few clusters (reduced-bias.ts). Intervals and p-values by Student's t.
 *
 * A term that is a combination of those before it has no coefficient (`collinear`); `rank` counts the others. With as many terms as rows
 * the coefficients stand without errors (`too-few-rows`), and a fit that is exact but for rounding has errors of 0 and neither limits nor tests
 * (`no-variance`). hc3 has no errors where one row alone tells of a coefficient, so that its residual is 0 whatever it is (`too-few-rows`). `rSquared` is null where the response does not vary.
 *
 * @throws ArgumentError naming the column and index of a value at fault
 * @source decomposition: Householder 1958, J ACM 5:339; MacKinnon & White 1985, J Econometrics 29:305 (hc3); Liang & Zeger 1986, Biometrika 73:13 (clusters);
 *   Pustejovsky & Tipton 2018, J Bus Econ Stat 36:672 (reduced-bias)
 */
export function linearRegression(columns: LinearColumns, options: LinearOptions = {}): LinearFit {
  checkColumnNames(linearColumnsNames, { columns });
  const { level, variance = columns.clusters ? "clustered" : "classical" } = readOptions(
    linearOptions,
    options,
  );
  checkLinearColumns(columns);
  if (variance === "hc3" && columns.clusters !== undefined)
    throw new ArgumentError({
      argument: "variance",
      index: null,
      expected:
        '"clustered" or "reduced-bias" where there are clusters; "hc3" takes every row as independent',
      found: variance,
    });
  const { covariates } = columns;
  const n = columns.response.length;
  const names = ["intercept", ...covariates.names];
  // responses far from 0 and close together keep their digits when the first is taken off all; the intercept gets it back
  const shift = columns.response[0] ?? 0;
  const response = Float64Array.from(columns.response, (value) => value - shift);
  const solved = leastSquares([new Float64Array(n).fill(1), ...covariates.columns], response);
  if (n > 0) solved.b[0]! += shift;
  const { kept } = solved.qr;
  const rank = kept.length;
  // a fit that is exact but for rounding leaves no residuals
  if (isRounding(solved.residuals, columns.response)) solved.residuals.fill(0);
  const residualSquares = solved.residuals.reduce((sum, e) => sum + e * e, 0);
  const mean = n > 0 ? response.reduce((sum, y) => sum + y, 0) / n : 0;
  let regressionSquares = 0;
  for (let row = 0; row < n; row++)
    regressionSquares += (response[row]! - solved.residuals[row]! - mean) ** 2;
  const residualDf = n - rank;
  const residualVariance = residualSquares / residualDf;
  const { covariance: spread, df, termDf } = covarianceOf(solved, { variance, columns, residualVariance });
  const hasErrors = residualDf > 0 && df > 0;

  const place = new Map(kept.map((column, k) => [column, k]));
  const at = <T>(make: (k: number) => T | null): (T | null)[] =>
    names.map((_, column) => {
      const k = place.get(column);
      return k === undefined ? null : make(k);
    });
  const errorOf = (k: number): number | null => (hasErrors && dfOf(k) > 0 ? Math.sqrt(spread[k]![k]!) : null);
  const dfOf = (k: number): number => termDf[k]!;
  const limit = (k: number, side: 1 | -1): number | null => {
    const error = errorOf(k);
    return error === null || error === 0 ? null : solved.b[k]! + side * tCritical(level, dfOf(k)) * error;
  };
  const tOf = (k: number): number | null => {
    const error = errorOf(k);
    return error === null || error === 0 ? null : solved.b[k]! / error;
  };
  const total = regressionSquares + residualSquares;
  const modelDf = Math.max(0, rank - 1);
  const ratio =
    residualDf > 0 && modelDf > 0 && residualSquares > 0
      ? regressionSquares / modelDf / residualVariance
      : null;
  const tooFew: Reason = n === 0 ? "no-rows" : "too-few-rows";
  const noF: Reason =
    residualDf <= 0 ? tooFew : modelDf > 0 ? "no-variance" : nothingTested(columns.covariates.names);
  return {
    names,
    coefficients: at((k) => solved.b[k]!),
    standardErrors: at(errorOf),
    lower: at((k) => limit(k, -1)),
    upper: at((k) => limit(k, 1)),
    t: at(tOf),
    p: at((k) => {
      const t = tOf(k);
      return t === null ? null : tTwoSided(t, dfOf(k));
    }),
    reasons: names.map((_, column) => {
      const k = place.get(column);
      if (n === 0 || k === undefined) return n === 0 ? "no-rows" : "collinear";
      const error = errorOf(k);
      return error === null ? "too-few-rows" : error === 0 ? "no-variance" : null;
    }),
    covariance: names.map((_, i) =>
      names.map((_, j) => {
        const a = place.get(i);
        const b = place.get(j);
        return a === undefined || b === undefined || !hasErrors ? null : spread[a]![b]!;
      }),
    ),
    variance,
    level,
    n,
    rank,
    residualDf,
    df,
    termDf: at((k) => (hasErrors ? dfOf(k) : null)),
    residuals: Array.from(solved.residuals),
    residualSquares,
    regressionSquares,
    residualDeviation: residualDf > 0 ? Math.sqrt(residualVariance) : null,
    rSquared: total > 0 ? regressionSquares / total : null,
    f:
      ratio === null
        ? { statistic: null, df: modelDf, p: null, reason: noF }
        : {
            statistic: ratio,
            df: modelDf,
            p: fUpperTail(ratio, { numerator: modelDf, denominator: residualDf }),
            reason: null,
          },
    reason: hasErrors ? null : tooFew,
  };
}
