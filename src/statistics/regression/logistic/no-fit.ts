import type { Reason } from "../../shared/figure.js";
import type { LogisticColumns, LogisticFit, LogisticTerm } from "./logistic-types.js";
import { noTest } from "./overall-tests.js";
import type { Prepared } from "./prepare.js";

/** What is said where there are no rows, or one outcome only. */
export function withoutMaximum(
  columns: LogisticColumns,
  settings: {
    readonly prepared: Prepared;
    readonly penalty: LogisticFit["penalty"];
    readonly interval: LogisticTerm["interval"];
    readonly level: number;
  },
): LogisticFit {
  const { n, outcomes, layout } = settings.prepared;
  const names = ["intercept", ...columns.covariates.names];
  const all = outcomes === n;
  const reason: Reason = n === 0 ? "no-rows" : all ? "monotone-likelihood" : "no-events";
  const nothing = names.map(() => null);
  return {
    names,
    coefficients: nothing,
    standardErrors: nothing,
    terms: names.map((name, k) => ({
      name,
      coefficient: null,
      standardError: null,
      lower: null,
      upper: null,
      oddsRatio: { estimate: null, lower: null, upper: null },
      statistic: null,
      p: null,
      interval: settings.interval,
      reason: k > 0 && n > 0 && layout.functionals[k] === null ? "collinear" : reason,
      limit: k > 0 || n === 0 ? null : all ? "infinity" : "zero",
    })),
    covariance: names.map(() => nothing),
    robustCovariance: columns.clusters ? names.map(() => nothing) : null,
    separation: null,
    likelihoodRatio: noTest(reason),
    score: noTest(reason),
    wald: noTest(reason),
    logLikelihood: n === 0 ? null : 0,
    logLikelihoodNull: n === 0 ? null : 0,
    deviance: n === 0 ? null : 0,
    aic: null,
    concordance: null,
    fitted: n === 0 ? [] : Array.from(columns.outcome, () => (all ? 1 : 0)),
    penalty: settings.penalty,
    level: settings.level,
    n,
    outcomes,
    rank: layout.basis.size,
    iterations: 0,
    converged: false,
    finalGradient: null,
    status: n === 0 ? "no-rows" : "one-outcome",
  };
}
