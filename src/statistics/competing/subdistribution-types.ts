import type { HazardRatio, HazardStatus } from "../hazards/layout/hazard-fit.js";
import type { Covariates } from "../shared/covariates.js";
import type { TestResult } from "../shared/figure.js";
import { confidenceLevel, type NamesOf, number, type OptionsOf } from "../shared/options.js";
import type { TimesAndCauses } from "./causes.js";
import { causeOption } from "./causes.js";

export interface SubdistributionColumns extends TimesAndCauses {
  readonly covariates: Covariates;
  /** Whole numbers: groups whose follow-up ended at different rates, each with a censoring curve of its own. Left out: one for all. */
  readonly censoringGroups?: ArrayLike<number>;
  /** Whole numbers; rows with the same number belong together (fingers of one person). */
  readonly clusters?: ArrayLike<number>;
}

export const subdistributionColumnsNames: NamesOf<SubdistributionColumns> = {
  covariates: true,
  censoringGroups: true,
  clusters: true,
  times: true,
  causes: true,
};

export const subdistributionOptions = {
  /** The event of interest. Default 1. */
  cause: causeOption,
  /** Default 0.95. */
  level: confidenceLevel,
  /** Default 50. */
  maximumIterations: number("count", 50),
  /** Largest last step, in standard deviations of the covariates. Default 1e-8. */
  tolerance: number("positive", 1e-8),
};

export interface SubdistributionOptions extends OptionsOf<typeof subdistributionOptions> {}

/** Cumulative subdistribution hazard for somebody whose covariates are the means of the rows fitted. */
export interface SubdistributionBaseline {
  readonly covariates: readonly number[];
  /** Times of the event of interest, ascending. */
  readonly times: readonly number[];
  readonly cumulativeHazard: readonly number[];
}

/** Arrays are in the order of the covariates; null where there is no finite estimate. */
export interface SubdistributionFit {
  readonly cause: number;
  readonly names: readonly string[];
  readonly coefficients: readonly (number | null)[];
  /** From the sandwich, the estimated censoring curve included; intervals and p-values are by these. */
  readonly standardErrors: readonly (number | null)[];
  readonly covariance: readonly (readonly (number | null)[])[];
  /** From the inverse information, which takes the weights as known and independent: for comparison only. */
  readonly modelStandardErrors: readonly (number | null)[];
  /** Ratios of subdistribution hazards. */
  readonly ratios: readonly HazardRatio[];
  /** By the sandwich; null under a monotone likelihood. */
  readonly wald: TestResult;
  /** Twice their difference is not chi-square: these are no likelihoods of independent terms. */
  readonly logPseudoLikelihoodNull: number | null;
  readonly logPseudoLikelihood: number | null;
  /** Null without events or where a coefficient has no finite estimate. */
  readonly baseline: SubdistributionBaseline | null;
  readonly iterations: number;
  readonly converged: boolean;
  /** Largest absolute first derivative at the end, covariates in standard deviations. */
  readonly finalGradient: number | null;
  readonly n: number;
  readonly events: number;
  readonly competing: number;
  readonly level: number;
  readonly status: HazardStatus;
}
