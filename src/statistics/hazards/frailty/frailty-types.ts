import type { TestResult } from "../../shared/figure.js";
import { confidenceLevel, type NamesOf, number, type OptionsOf, oneOf } from "../../shared/options.js";
import type { HazardRatio, HazardStatus } from "../layout/hazard-fit.js";
import type { HazardColumns } from "../layout/sorted-rows.js";
import type { SummedTies } from "../layout/ties.js";
import { summedTieMethods } from "../layout/ties.js";

/** Rows with the group that shares a frailty, whole numbers; neither weights nor clusters. */
export interface FrailtyColumns extends HazardColumns {
  readonly groups: ArrayLike<number>;
}

export const frailtyColumnsNames: NamesOf<FrailtyColumns> = {
  groups: true,
  strata: true,
  covariates: true,
  times: true,
  events: true,
  entries: true,
  weights: true,
  clusters: true,
};

export const frailtyOptions = {
  /** Default "efron". */
  ties: oneOf(summedTieMethods, "efron"),
  /** Default 0.95. */
  level: confidenceLevel,
  /** Variance of the frailty, held at a value; left out: estimated. */
  theta: number("positive"),
};

export interface FrailtyOptions extends OptionsOf<typeof frailtyOptions> {}

/** Variance of the frailty; no errors and limits where it was given, no standard error where the estimate is 0. */
export interface FrailtyVariance {
  readonly estimate: number | null;
  readonly standardError: number | null;
  /** By profile likelihood. */
  readonly lower: number | null;
  readonly upper: number | null;
}

/** Ratios hold within a group. Arrays are in the order of the covariates; null where there is no estimate. */
export interface FrailtyHazardFit {
  readonly names: readonly string[];
  readonly coefficients: readonly (number | null)[];
  /** At the estimated variance of the frailty, whose own uncertainty is not counted. */
  readonly standardErrors: readonly (number | null)[];
  readonly covariance: readonly (readonly (number | null)[])[];
  readonly hazardRatios: readonly HazardRatio[];
  readonly theta: FrailtyVariance;
  /** Codes of the groups, ascending; along them the posterior mean of each frailty. */
  readonly groups: readonly number[];
  readonly frailties: readonly (number | null)[];
  /** Likelihood ratio against theta 0, p halved; none where theta was given. */
  readonly noFrailty: TestResult;
  readonly wald: TestResult;
  /** Ordinary partial log-likelihood at its own maximum. */
  readonly logLikelihoodNoFrailty: number | null;
  /** Integrated over the frailties. */
  readonly logLikelihood: number | null;
  readonly iterations: number;
  readonly converged: boolean;
  readonly n: number;
  readonly events: number;
  readonly ties: SummedTies;
  readonly level: number;
  readonly status: HazardStatus;
}
