import type { Covariates } from "../../shared/covariates.js";
import type { Reason } from "../../shared/figure.js";
import {
  confidenceLevel,
  list,
  type NamesOf,
  type OptionsOf,
  oneOf,
  withDefault,
} from "../../shared/options.js";

export interface MixedColumns {
  readonly response: ArrayLike<number>;
  /** Without the intercept, which is always there. */
  readonly covariates: Covariates;
  /** Whole numbers: the person, finger or site that rows belong to. */
  readonly groups: ArrayLike<number>;
  /**
   * Values of the covariate whose slope differs from group to group, as days since injury; list it among the covariates too where its mean
   * slope is asked for. Left out: only intercepts differ.
   */
  readonly slope?: ArrayLike<number>;
}

export const mixedColumnsNames: NamesOf<MixedColumns> = {
  response: true,
  covariates: true,
  groups: true,
  slope: true,
};

export const mixedOptions = {
  /** Default "reml". */
  method: oneOf(["reml", "ml"], "reml"),
  /**
   * Errors and degrees of freedom of the fixed effects. Default "kenward-roger" with reml, "satterthwaite" with ml; "normal" takes none.
   */
  inference: oneOf(["kenward-roger", "satterthwaite", "normal"]),
  /** Sets of covariates that are to be tested together, by name. */
  together: withDefault(list<readonly (readonly string[])[]>("an array of sets of names"), []),
  /** Intervals of the variance components: by profile of the (restricted) likelihood, the default, or none. */
  varianceIntervals: oneOf(["profile", "none"], "profile"),
  /** Default 0.95. */
  level: confidenceLevel,
};

export interface MixedOptions extends OptionsOf<typeof mixedOptions> {}

/** One fixed effect. */
export interface MixedTerm {
  readonly name: string;
  readonly coefficient: number | null;
  /** By the adjusted covariance with Kenward-Roger, else by the model's. */
  readonly standardError: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  readonly t: number | null;
  /** Null with "normal". */
  readonly df: number | null;
  readonly p: number | null;
  readonly reason: Reason | null;
}

/** Effects tested together. */
export interface JointTest {
  readonly terms: readonly string[];
  /** F, or chi-square over its degrees of freedom with "normal". */
  readonly f: number | null;
  readonly numeratorDf: number;
  /** Null with "normal". */
  readonly denominatorDf: number | null;
  readonly p: number | null;
  readonly reason: Reason | null;
}

/** A standard deviation, correlation or share of variance. */
export interface VarianceFigure {
  readonly estimate: number | null;
  /** Null with varianceIntervals "none", and where the likelihood never falls so far. */
  readonly lower: number | null;
  readonly upper: number | null;
  readonly reason: Reason | null;
}

export interface VarianceComponents {
  /** Between groups, where the slope's covariate is 0. */
  readonly interceptDeviation: VarianceFigure;
  /** Of slopes between groups; null without a slope. */
  readonly slopeDeviation: VarianceFigure | null;
  /** Of intercept and slope; null without a slope, or as its estimate where one of them does not vary. */
  readonly correlation: VarianceFigure | null;
  /** Within groups. */
  readonly residualDeviation: VarianceFigure;
  /** Share of the variance that lies between groups; null with a slope, where it depends on the covariate. */
  readonly intraclassCorrelation: VarianceFigure | null;
}

/** What a group differs by, pulled towards 0 by what is not known about it. */
export interface GroupPrediction {
  readonly group: number;
  readonly n: number;
  readonly intercept: number | null;
  /** Standard deviation given the data and the fixed effects. */
  readonly interceptDeviation: number | null;
  /** Null without a slope. */
  readonly slope: number | null;
  readonly slopeDeviation: number | null;
}

/**
 * Likelihood-ratio test of the variance between groups: intercepts against none, or with a slope intercept and slope against intercepts only. Its
 * law is a mixture, half chi-square with `df - 1`, half with `df` degrees of freedom, as a variance cannot be negative.
 */
export interface VarianceTest {
  readonly statistic: number | null;
  readonly df: 1 | 2;
  readonly p: number | null;
  readonly logLikelihoodWithout: number | null;
  readonly reason: Reason | null;
}

export type MixedStatus =
  | "ok"
  | "boundary"
  | "collinear"
  | "no-rows"
  | "too-few-rows"
  | "one-group"
  | "no-variance"
  | "not-converged";

export interface MixedFit {
  readonly names: readonly string[];
  readonly coefficients: readonly (number | null)[];
  readonly standardErrors: readonly (number | null)[];
  readonly terms: readonly MixedTerm[];
  /** Model-based: (X' V^-1 X)^-1. */
  readonly covariance: readonly (readonly (number | null)[])[];
  /** After Kenward & Roger; null with ml. */
  readonly adjustedCovariance: readonly (readonly (number | null)[])[] | null;
  readonly jointTests: readonly JointTest[];
  readonly components: VarianceComponents;
  readonly varianceTest: VarianceTest;
  /** One a group, ascending by code. */
  readonly predictions: readonly GroupPrediction[];
  /**
   * All constants included. With reml the restricted one, with log det X' V^-1 X and (n - rank) log 2 pi: it depends on how covariates are coded
   * and compares only fits with the same fixed effects.
   */
  readonly logLikelihood: number | null;
  /** -2 log-likelihood + 2 (rank + number of variances and covariances). */
  readonly aic: number | null;
  readonly method: "reml" | "ml";
  readonly inference: "kenward-roger" | "satterthwaite" | "normal";
  readonly level: number;
  readonly n: number;
  readonly groups: number;
  readonly rank: number;
  readonly iterations: number;
  readonly converged: boolean;
  /** Largest absolute derivative of the log-likelihood at the end that is not held by the boundary, variances relative to the residual one. */
  readonly finalGradient: number | null;
  /** boundary: a variance is 0, or a correlation 1 or -1. */
  readonly status: MixedStatus;
}
