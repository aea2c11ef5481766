import type { Covariates } from "../../shared/covariates.js";
import type { TestResult } from "../../shared/figure.js";
import { confidenceLevel, type NamesOf, number, type OptionsOf, oneOf } from "../../shared/options.js";
import type { LogisticStatus, LogisticTerm, Separation } from "./logistic-types.js";

export interface MultinomialColumns {
  /** Category of each row, whole numbers; the order means nothing. */
  readonly categories: ArrayLike<number>;
  /** Without the intercept, which is always there. */
  readonly covariates: Covariates;
  /** Case weights, 0 or more. Default 1 each. */
  readonly weights?: ArrayLike<number>;
  /** Whole numbers, one a person or site: gives the robust variance. */
  readonly clusters?: ArrayLike<number>;
}

export const multinomialColumnsNames: NamesOf<MultinomialColumns> = {
  categories: true,
  covariates: true,
  weights: true,
  clusters: true,
};

export const multinomialOptions = {
  /** Category that the others are compared with. Default the smallest. */
  reference: number("code"),
  /** See logisticRegression. Default "wald". */
  interval: oneOf(["wald", "profile"], "wald"),
  /** Default 0.95. */
  level: confidenceLevel,
  /** Default 200. */
  maximumIterations: number("count", 200),
  /** Length of the last step, as root mean square change of the log odds. Default 1e-10. */
  tolerance: number("positive", 1e-10),
};

export interface MultinomialOptions extends OptionsOf<typeof multinomialOptions> {}

/** One category against the reference; terms in the order intercept, covariates. */
export interface CategoryTerms {
  readonly category: number;
  /** Rows in it. */
  readonly n: number;
  readonly terms: readonly LogisticTerm[];
}

export interface MultinomialFit {
  readonly names: readonly string[];
  /** All categories, the reference first, then ascending; only those of rows with weight. */
  readonly categories: readonly number[];
  readonly reference: number | null;
  readonly comparisons: readonly CategoryTerms[];
  /** Of all coefficients, by category and within it by name; null where there is no estimate. */
  readonly covariance: readonly (readonly (number | null)[])[];
  readonly robustCovariance: readonly (readonly (number | null)[])[] | null;
  /** Terms are named "category: name". */
  readonly separation: Separation | null;
  readonly likelihoodRatio: TestResult;
  readonly score: TestResult;
  readonly wald: TestResult;
  readonly logLikelihood: number | null;
  readonly logLikelihoodNull: number | null;
  readonly deviance: number | null;
  readonly aic: number | null;
  /** One array a category, in the order of `categories`: its probability by row. */
  readonly fitted: readonly (readonly number[])[];
  readonly level: number;
  readonly n: number;
  /** Of the design. */
  readonly rank: number;
  readonly iterations: number;
  readonly converged: boolean;
  readonly finalGradient: number | null;
  readonly status: LogisticStatus;
}
