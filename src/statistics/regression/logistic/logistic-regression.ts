import { factorSymmetric, invertFactored } from "../../linear/symmetric.js";
import { checkColumn } from "../../shared/arguments.js";
import { normalCritical } from "../../shared/distributions.js";
import { checkColumnNames, readOptions } from "../../shared/options.js";
import { concordanceOf } from "./concordance.js";
import { type Covariances, estimatesOf, termsOf } from "./estimates.js";
import { designRows, predictors, probabilityOf } from "./fitted-rows.js";
import { checkRegressionRows, refuseProfileOfClusters } from "./layout.js";
import type { LimitFit } from "./limit-fit.js";
import type { LogisticColumns, LogisticFit, LogisticOptions } from "./logistic-types.js";
import { logisticColumnsNames, logisticOptions } from "./logistic-types.js";
import { withoutMaximum } from "./no-fit.js";
import { coordinatesAlong } from "./objective.js";
import { overallOf } from "./overall.js";
import { noTest } from "./overall-tests.js";
import { fitOrdinary, fitPenalised, type Prepared, prepare } from "./prepare.js";
import { clusteredCovariance } from "./robust-covariance.js";
import { separationOf, spreadOf } from "./separation.js";

type Settings = Required<LogisticOptions> & { readonly z: number };

function settingsOf(columns: LogisticColumns, options: LogisticOptions): Settings {
  const asked = readOptions(logisticOptions, options);
  const { penalty, level, maximumIterations, tolerance } = asked;
  const interval = asked.interval ?? (penalty === "firth" && !columns.clusters ? "profile" : "wald");
  refuseProfileOfClusters(columns, interval);
  return { penalty, level, maximumIterations, tolerance, interval, z: normalCritical(level) };
}

/** Scores of the rows that take part in the maximum, flat, for the sandwich. */
function scoresOf(prepared: Prepared, logOdds: Float64Array): Float64Array {
  const { n, size, x, y, weights } = prepared.rows;
  const scores = new Float64Array(n * size);
  for (let row = 0; row < n; row++) {
    const eta = logOdds[prepared.layout.rows[row]!]!;
    const residual = y[row] === 1 ? probabilityOf(-eta) : -probabilityOf(eta);
    for (let j = 0; j < size; j++) scores[row * size + j] = weights[row]! * residual * x[row * size + j]!;
  }
  return scores;
}

/** Inverse information, and the sandwich where there are clusters, over the variables of the maximum. */
function covariancesOf(
  prepared: Prepared,
  from: { readonly fit: LimitFit; readonly clusters?: ArrayLike<number>; readonly logOdds: Float64Array },
): Covariances {
  const { fit, clusters, logOdds } = from;
  const { information } = fit.climb.end;
  const size = fit.climb.point.length;
  const model = invertFactored(factorSymmetric(information, { size, tolerance: 1e-15 }));
  if (!clusters) return { model };
  const full = scoresOf(prepared, logOdds);
  const width = prepared.rows.size;
  const values = new Float64Array(prepared.n * size);
  for (let row = 0; row < prepared.n; row++) {
    const one = full.subarray(row * width, (row + 1) * width);
    values.set(fit.span === null ? one : coordinatesAlong(fit.span, one), row * size);
  }
  const own = Float64Array.from(prepared.layout.rows, (row) => clusters[row]!);
  return { model, robust: clusteredCovariance({ values, size, clusters: own }, information) };
}

/**
 * Logistic regression by maximum likelihood, or penalised after Firth, with an intercept.
 *
 * log(p / (1 - p)) = b0 + sum of b x. Newton's method with step halving on an orthonormal basis of the design, so that neither units nor an
 * ill-conditioned design matter. Variance: inverse information; with clusters the sandwich of scores summed within clusters times G / (G - 1).
 * "firth" maximises log L + log det I / 2: coefficients are finite whatever the data and biased less in small samples; its tests and intervals
 * come from that penalised likelihood. Weights are counts of equal rows to the likelihood, the penalty included.
 *
 * Degenerate data: no rows, or one outcome only without the penalty, give nulls and that status. A covariate that is constant or a
 * combination of those before it has no coefficient (`collinear`). Where a combination of covariates tells the outcomes apart, the likelihood
 * has no maximum: `separation` gives kind and direction, the terms in it have no coefficient (`monotone-likelihood`) but the limit of their
 * odds ratio, a one-sided profile interval and a likelihood-ratio test; the others have the coefficients of the limit. That is decided by
 * geometry, not by the size of a coefficient.
 *
 * @param columns outcome 0/1; covariates finite; rows of weight 0 take no part
 * @throws ArgumentError naming the column and index of a value at fault, the option, or profile intervals asked for with clusters
 * @source Cox 1958, J R Stat Soc B 20:215; separation: Albert & Anderson 1984, Biometrika 71:1; penalty: Firth 1993, Biometrika 80:27,
 *   Heinze & Schemper 2002, Stat Med 21:2409; clusters: Liang & Zeger 1986, Biometrika 73:13; profile: Venzon & Moolgavkar 1988, Appl Stat 37:87
 * @example
 * logisticRegression({ outcome: [0, 0, 0, 1, 0, 1, 1, 1], covariates: { names: ["ring"], columns: [[0, 0, 0, 0, 1, 1, 1, 1]] } })
 *   .terms[1].oddsRatio.estimate // => (3 * 3) / (1 * 1)
 */
export function logisticRegression(columns: LogisticColumns, options: LogisticOptions = {}): LogisticFit {
  checkColumnNames(logisticColumnsNames, { columns });
  const outcome = { name: "outcome", values: columns.outcome };
  checkColumn(outcome, "zero or one");
  checkRegressionRows(columns, outcome);
  const settings = settingsOf(columns, options);
  const prepared = prepare(columns);
  const { n, outcomes, layout } = prepared;
  const { penalty, interval, level, z } = settings;
  if (n === 0 || (penalty === "none" && (outcomes === 0 || outcomes === n)))
    return withoutMaximum(columns, { prepared, penalty, interval, level });

  const fit = penalty === "firth" ? fitPenalised(prepared, settings) : fitOrdinary(prepared, settings);
  const { climb, recession } = fit;
  const design = {
    x: designRows(prepared, { covariates: columns.covariates, total: columns.outcome.length }),
    size: prepared.rows.size,
    total: columns.outcome.length,
  };
  const logOdds = predictors(design, fit);
  const { clusters } = columns;
  const covariances = covariancesOf(prepared, { fit, logOdds, ...(clusters && { clusters }) });

  const names = ["intercept", ...columns.covariates.names];
  const spreads = [1, ...columns.covariates.columns.map(spreadOf)];
  const asked = { names, functionals: layout.functionals, spreads };
  const estimates = estimatesOf(fit, { asked, covariances });
  const whole = penalty === "firth" ? prepared.penalised : prepared.ordinary;
  const { maximumIterations, tolerance } = settings;
  const setting = { fit, whole, z, maximumIterations, tolerance };
  const rank = layout.basis.size;
  const { empty, ...overall } = overallOf(fit, {
    whole,
    slopes: Array.from({ length: rank - 1 }, (_, k) => k + 1),
    covariances,
    iterations: settings,
    collinear: rank < names.length,
  });
  const isPenalised = penalty === "firth";
  const units = isPenalised ? layout.basis.logDeterminant : 0;
  const logLikelihood = climb.end.value + units;
  return {
    names,
    coefficients: estimates.coefficients,
    standardErrors: estimates.standardErrors,
    terms: termsOf(estimates, { interval, setting }),
    covariance: estimates.covariance,
    robustCovariance: estimates.robustCovariance,
    separation: recession && separationOf(recession, asked),
    ...overall,
    score: isPenalised ? noTest("no-variance", rank - 1) : overall.score,
    logLikelihood,
    logLikelihoodNull: empty.end.value + units,
    deviance: isPenalised ? -2 * prepared.ordinary.evaluate(climb.point).value : -2 * logLikelihood,
    aic: isPenalised || recession ? null : -2 * logLikelihood + 2 * rank,
    concordance: concordanceOf({
      outcome: columns.outcome,
      scores: logOdds,
      weights: columns.weights ?? new Float64Array(design.total).fill(1),
    }),
    fitted: Array.from(logOdds, probabilityOf),
    penalty,
    level,
    n,
    outcomes,
    rank,
  };
}
