import type { Reason, TestResult } from "../../shared/figure.js";
import { confidenceLevel, number, type OptionsOf, oneOf } from "../../shared/options.js";
import type { Ties } from "./ties.js";
import { tieMethods } from "./ties.js";

export const hazardOptions = {
  /** Default "efron". */
  ties: oneOf(tieMethods, "efron"),
  /** Default 0.95. */
  level: confidenceLevel,
  /** Default 50. */
  maximumIterations: number("count", 50),
  /** Largest last step, in standard deviations of the covariates. Default 1e-8. */
  tolerance: number("positive", 1e-8),
};

export interface HazardOptions extends OptionsOf<typeof hazardOptions> {}

/** Null also where the number would be too large to hold, for a covariate in a far too large unit. */
export interface HazardRatio {
  readonly name: string;
  readonly estimate: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  readonly z: number | null;
  readonly p: number | null;
  /** Where there is no estimate: why, and for a monotone likelihood whether the ratio was on its way to 0 or to infinity. */
  readonly reason: Reason | null;
  readonly limit: "zero" | "infinity" | null;
}

export type HazardStatus =
  | "ok"
  | "no-rows"
  | "no-events"
  | "collinear"
  | "monotone-likelihood"
  | "not-converged";

/** Arrays are in the order of the covariates; null where there is no finite estimate. */
export interface HazardFit {
  readonly names: readonly string[];
  readonly coefficients: readonly (number | null)[];
  /** From the information. */
  readonly standardErrors: readonly (number | null)[];
  /** From the sandwich, summed within clusters; null without clusters. */
  readonly robustStandardErrors: readonly (number | null)[] | null;
  /** Inverse information; rows and columns without an estimate are null. */
  readonly covariance: readonly (readonly (number | null)[])[];
  readonly robustCovariance: readonly (readonly (number | null)[])[] | null;
  /** Robust intervals and p-values where there are clusters. */
  readonly hazardRatios: readonly HazardRatio[];
  readonly likelihoodRatio: TestResult;
  /** By the model's covariance; null under a monotone likelihood. */
  readonly wald: TestResult;
  /** As `wald`; null with `too-few-rows` also with no more clusters than coefficients. */
  readonly robustWald: TestResult | null;
  readonly score: TestResult;
  /** Score at 0 with its covariance summed within clusters; null without clusters, its figures null with no more clusters than coefficients. */
  readonly robustScore: TestResult | null;
  readonly logLikelihoodNull: number | null;
  readonly logLikelihood: number | null;
  readonly iterations: number;
  readonly converged: boolean;
  /** Largest absolute first derivative at the last evaluation, covariates in standard deviations; at most a step of 1e-10 follows it. */
  readonly finalGradient: number | null;
  readonly n: number;
  readonly events: number;
  readonly ties: Ties;
  readonly level: number;
  /** The gravest thing to be said; each covariate has its own reason in `hazardRatios`. */
  readonly status: HazardStatus;
}
