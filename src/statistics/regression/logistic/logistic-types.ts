import type { Covariates } from "../../shared/covariates.js";
import type { Reason, TestResult } from "../../shared/figure.js";
import { confidenceLevel, type NamesOf, number, type OptionsOf, oneOf } from "../../shared/options.js";

export interface LogisticColumns {
  /** 1 where the outcome was seen, 0 where it was not. */
  readonly outcome: ArrayLike<number>;
  /** Without the intercept, which is always there. Categories as 0/1 columns. */
  readonly covariates: Covariates;
  /** Case weights, 0 or more. Default 1 each. */
  readonly weights?: ArrayLike<number>;
  /** Whole numbers, one a person or site: gives the robust variance. For weights that are no counts, number the rows. */
  readonly clusters?: ArrayLike<number>;
}

export const logisticColumnsNames: NamesOf<LogisticColumns> = {
  outcome: true,
  covariates: true,
  weights: true,
  clusters: true,
};

export const logisticOptions = {
  /** "firth" adds half the log determinant of the information, which keeps every coefficient finite. Default "none". */
  penalty: oneOf(["none", "firth"], "none"),
  /**
   * Intervals and p-values of the coefficients: "wald" from the standard error, "profile" from the (penalised) likelihood maximised over the
   * other coefficients. Default "profile" with the penalty and without clusters, else "wald".
   */
  interval: oneOf(["wald", "profile"]),
  /** Default 0.95. */
  level: confidenceLevel,
  /** Default 200. */
  maximumIterations: number("count", 200),
  /** Length of the last step, as root mean square change of the log odds. Default 1e-10. */
  tolerance: number("positive", 1e-10),
};

export interface LogisticOptions extends OptionsOf<typeof logisticOptions> {}

/** Null also where a number would be too large to hold. */
export interface OddsRatio {
  readonly estimate: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
}

/** One coefficient: a log odds ratio, of the intercept log odds. */
export interface LogisticTerm {
  readonly name: string;
  readonly coefficient: number | null;
  /** From the information, or robust where there are clusters. */
  readonly standardError: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  readonly oddsRatio: OddsRatio;
  /** The Wald statistic z, or chi-square with one degree of freedom of the likelihood-ratio test, as `interval` says. */
  readonly statistic: number | null;
  readonly p: number | null;
  readonly interval: "wald" | "profile";
  /** Where there is no coefficient, or none of its errors (one cluster only): why, and for a separated outcome where its odds ratio is bound for (null: it drops out of the limit). */
  readonly reason: Reason | null;
  readonly limit: "zero" | "infinity" | null;
}

/** A combination of the covariates that tells outcomes apart without error, so that the likelihood has no finite maximum. */
export interface Separation {
  /** complete: every row is told apart; quasi-complete: some lie on the border. */
  readonly kind: "complete" | "quasi-complete";
  /** Names of the terms with a part in the direction. */
  readonly terms: readonly string[];
  /**
   * By term: along it no row becomes less likely and some become certain. The largest part, times the spread of its column, is 1 or -1.
   */
  readonly direction: readonly number[];
  /** Rows whose outcome the limit predicts with certainty; with several categories, pairs of a row and a category that it rules out. */
  readonly certain: number;
}

export type LogisticStatus = "ok" | "no-rows" | "one-outcome" | "separation" | "collinear" | "not-converged";

/** Arrays are in the order intercept, covariates; null where there is no finite estimate; errors null also with a single cluster. */
export interface LogisticFit {
  readonly names: readonly string[];
  readonly coefficients: readonly (number | null)[];
  readonly standardErrors: readonly (number | null)[];
  readonly terms: readonly LogisticTerm[];
  /** Inverse information. */
  readonly covariance: readonly (readonly (number | null)[])[];
  /** From the sandwich, summed within clusters; null without clusters. */
  readonly robustCovariance: readonly (readonly (number | null)[])[] | null;
  readonly separation: Separation | null;
  /** All covariates together; penalised with the penalty. */
  readonly likelihoodRatio: TestResult;
  /** Null with the penalty. */
  readonly score: TestResult;
  /** By the robust covariance where there are clusters; null under separation, and with no more clusters than slopes (`too-few-rows`). */
  readonly wald: TestResult;
  /** Penalised with the penalty; at the limit under separation. */
  readonly logLikelihood: number | null;
  /** With the penalty: intercept free, the other coefficients 0, penalty of the whole model. */
  readonly logLikelihoodNull: number | null;
  readonly deviance: number | null;
  /** Deviance and twice the number of coefficients; null with the penalty or under separation. */
  readonly aic: number | null;
  /** Chance that of two rows with different outcomes the one with the outcome has the higher probability; ties one half. */
  readonly concordance: number | null;
  /** Probability of the outcome, one a row; 0 or 1 where separation makes it certain. */
  readonly fitted: readonly number[];
  readonly penalty: "none" | "firth";
  readonly level: number;
  readonly n: number;
  /** Rows with the outcome. */
  readonly outcomes: number;
  readonly rank: number;
  readonly iterations: number;
  readonly converged: boolean;
  /** Largest absolute first derivative at the end, on columns of mean square 1. */
  readonly finalGradient: number | null;
  /** The gravest thing to be said; each term has its own reason. */
  readonly status: LogisticStatus;
}
