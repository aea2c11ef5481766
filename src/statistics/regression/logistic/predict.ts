import { checkSameLength } from "../../shared/arguments.js";
import { checkCovariates, covariatesOption } from "../../shared/covariates.js";
import { normalCritical } from "../../shared/distributions.js";
import type { Reason } from "../../shared/figure.js";
import { checkResult, needed, number, type OptionsOf, readOptions } from "../../shared/options.js";
import { probabilityOf } from "./fitted-rows.js";
import type { LogisticFit } from "./logistic-types.js";

export const predictionOptions = {
  /** The rows to predict, with the covariates of the fit in the same order. */
  covariates: needed(covariatesOption),
  /** Default that of the fit. */
  level: number("open share"),
};

export interface PredictionOptions extends OptionsOf<typeof predictionOptions> {}

/** One entry a row. */
export interface LogisticPredictions {
  readonly probability: readonly (number | null)[];
  readonly lower: readonly (number | null)[];
  readonly upper: readonly (number | null)[];
  readonly logOdds: readonly (number | null)[];
  /** Of the log odds. */
  readonly standardError: readonly (number | null)[];
  readonly reasons: readonly (Reason | null)[];
}

interface Prediction {
  readonly probability: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  readonly logOdds: number | null;
  readonly standardError: number | null;
  readonly reason: Reason | null;
}

/** Share of the parts of a sum below which the sum counts as 0. */
const rounding = 1e-9;

/** How a row lies to the direction of separation: 1 or -1 where its outcome is certain. */
function pullOf(fit: LogisticFit, x: readonly number[]): -1 | 0 | 1 {
  const parts = x.map((value, k) => value * (fit.separation?.direction[k] ?? 0));
  const sum = parts.reduce((total, part) => total + part, 0);
  const size = parts.reduce((total, part) => total + Math.abs(part), 0);
  return Math.abs(sum) <= rounding * size ? 0 : sum > 0 ? 1 : -1;
}

/** Square root of x' V x over the coefficients that there are. */
function errorOf(fit: LogisticFit, x: readonly number[]): number | null {
  const covariance = fit.robustCovariance ?? fit.covariance;
  let variance = 0;
  for (let i = 0; i < x.length; i++)
    for (let j = 0; j < x.length; j++) {
      if (x[i] === 0 || x[j] === 0 || fit.coefficients[i] === null || fit.coefficients[j] === null) continue;
      const entry = covariance[i]?.[j];
      if (entry == null) return null;
      variance += x[i]! * x[j]! * entry;
    }
  return Math.sqrt(Math.max(0, variance));
}

const nothing = { lower: null, upper: null, logOdds: null, standardError: null };

function predictRow(fit: LogisticFit, at: { readonly x: readonly number[]; readonly z: number }): Prediction {
  const { x, z } = at;
  if (fit.status === "no-rows" || fit.status === "one-outcome")
    return { probability: null, ...nothing, reason: fit.terms[0]?.reason ?? "no-rows" };
  const pull = pullOf(fit, x);
  if (pull !== 0) return { probability: pull > 0 ? 1 : 0, ...nothing, reason: "monotone-likelihood" };
  const unknown = fit.terms.some((term, k) => term.reason === "monotone-likelihood" && x[k] !== 0);
  if (unknown) return { probability: null, ...nothing, reason: "monotone-likelihood" };
  const logOdds = x.reduce((sum, value, k) => sum + value * (fit.coefficients[k] ?? 0), 0);
  const error = errorOf(fit, x);
  return {
    probability: probabilityOf(logOdds),
    lower: error === null ? null : probabilityOf(logOdds - z * error),
    upper: error === null ? null : probabilityOf(logOdds + z * error),
    logOdds,
    standardError: error,
    reason: error === null ? "too-few-rows" : null,
  };
}

/**
 * Probabilities of the outcome by a logistic regression, with intervals.
 *
 * The interval is x'b plus and minus z times sqrt(x' V x), taken from log odds to probabilities, so it stays between 0 and 1; V is robust where
 * the fit has clusters. A collinear covariate counts as 0: right for rows in which it is the same combination of the others. Where
 * separation makes a row certain its probability is 0 or 1 without an interval; a row that needs a coefficient without value has none.
 *
 * @throws ArgumentError for other covariates than those of the fit, or naming the column and index of a value at fault
 * @source Agresti 2013, Categorical Data Analysis, section 5.1
 * @example
 * const ring = [0, 0, 0, 0, 1, 1, 1, 1];
 * const fit = logisticRegression({ outcome: [0, 0, 0, 1, 0, 1, 1, 1], covariates: { names: ["ring"], columns: [ring] } });
 * predictedProbabilities(fit, { covariates: { names: ["ring"], columns: [[0, 1]] } }).probability // => [1/4, 3/4]
 */
export function predictedProbabilities(fit: LogisticFit, options: PredictionOptions): LogisticPredictions {
  checkResult(
    { fit },
    { expected: "a result of logisticRegression", has: ["names", "coefficients", "covariance"] },
  );
  const { covariates, level = fit.level } = readOptions(predictionOptions, options);
  const z = normalCritical(level);
  checkSameLength(
    { name: "covariates.columns", values: { length: covariates.columns.length } },
    { name: "the covariates of the fit", values: { length: fit.names.length - 1 } },
  );
  const first = {
    name: `covariate "${covariates.names[0]}"`,
    values: covariates.columns.length === 0 ? [] : covariates.columns[0]!,
  };
  checkCovariates(covariates, first);
  const rows = Array.from({ length: first.values.length }, (_, row) =>
    predictRow(fit, { x: [1, ...covariates.columns.map((column) => column[row]!)], z }),
  );
  return {
    probability: rows.map((row) => row.probability),
    lower: rows.map((row) => row.lower),
    upper: rows.map((row) => row.upper),
    logOdds: rows.map((row) => row.logOdds),
    standardError: rows.map((row) => row.standardError),
    reasons: rows.map((row) => row.reason),
  };
}
