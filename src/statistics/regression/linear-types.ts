import type { Covariates } from "../shared/covariates.js";
import type { Reason, TestResult } from "../shared/figure.js";
import { confidenceLevel, type NamesOf, type OptionsOf, oneOf } from "../shared/options.js";

export interface LinearColumns {
  readonly response: ArrayLike<number>;
  /** Without the intercept, which is always there. */
  readonly covariates: Covariates;
  /** Whole numbers; needed for clustered variance. */
  readonly clusters?: ArrayLike<number>;
}

export const linearColumnsNames: NamesOf<LinearColumns> = {
  response: true,
  covariates: true,
  clusters: true,
};

export const linearVariances = ["classical", "hc3", "clustered", "reduced-bias"] as const;
export type LinearVariance = (typeof linearVariances)[number];

export const linearOptions = {
  /** Default 0.95. */
  level: confidenceLevel,
  /** Default "clustered" where there are clusters, else "classical". "reduced-bias" is the clustered one that holds with few clusters. */
  variance: oneOf(linearVariances),
};

export interface LinearOptions extends OptionsOf<typeof linearOptions> {}

/** Arrays are in the order intercept, covariates; null where a term is collinear or a figure has no degrees of freedom. */
export interface LinearFit {
  readonly names: readonly string[];
  readonly coefficients: readonly (number | null)[];
  readonly standardErrors: readonly (number | null)[];
  readonly lower: readonly (number | null)[];
  readonly upper: readonly (number | null)[];
  readonly t: readonly (number | null)[];
  readonly p: readonly (number | null)[];
  readonly reasons: readonly (Reason | null)[];
  readonly covariance: readonly (readonly (number | null)[])[];
  readonly variance: LinearVariance;
  readonly level: number;
  readonly n: number;
  readonly rank: number;
  /** n - rank. */
  readonly residualDf: number;
  /** Of tests of several coefficients, and of each t but with reduced bias: residualDf, or clusters - 1. */
  readonly df: number;
  /** Of each t statistic: df, or with reduced bias its own. */
  readonly termDf: readonly (number | null)[];
  readonly residuals: readonly number[];
  readonly residualSquares: number;
  readonly regressionSquares: number;
  readonly residualDeviation: number | null;
  readonly rSquared: number | null;
  /** All covariates together, classical; denominator degrees of freedom are residualDf. */
  readonly f: TestResult;
  readonly reason: Reason | null;
}
