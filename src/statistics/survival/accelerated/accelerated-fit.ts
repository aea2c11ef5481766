import type { Reason, TestResult } from "../../shared/figure.js";
import { confidenceLevel, number, type OptionsOf, oneOf } from "../../shared/options.js";
import type { TimeLaw } from "./error-laws.js";
import { timeLaws } from "./error-laws.js";

export const acceleratedOptions = {
  /** Default "weibull". */
  law: oneOf(timeLaws, "weibull"),
  /** Default 0.95. */
  level: confidenceLevel,
  /** Default 100. */
  maximumIterations: number("count", 100),
  /** Largest last step, relative, covariates in standard deviations. Default 1e-9. */
  tolerance: number("positive", 1e-9),
};

export interface AcceleratedOptions extends OptionsOf<typeof acceleratedOptions> {}

/** A ratio with its interval on the log scale; null with a reason. */
export interface AcceleratedRatio {
  readonly name: string;
  readonly estimate: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  /** Of the logarithm. */
  readonly standardError: number | null;
  readonly z: number | null;
  readonly p: number | null;
  readonly reason: Reason | null;
  /** Under a monotone likelihood: where the ratio was on its way to. */
  readonly limit: "zero" | "infinity" | null;
}

/**
 * `scale-to-zero`: the rows fit without any spread (all exact times equal, or one time inside every interval), so the likelihood has no
 * maximum; `scale-to-infinity`: no spread is wide enough for them; `shape-to-limit`: under the generalised gamma law the likelihood still rises
 * at a shape of 3 or -3, where the law has all but an end.
 */
export type AcceleratedStatus =
  | "ok"
  | "no-rows"
  | "no-events"
  | "collinear"
  | "monotone-likelihood"
  | "scale-to-zero"
  | "scale-to-infinity"
  | "shape-to-limit"
  | "not-converged";

type Maybe = number | null;
type MaybeMatrix = readonly (readonly Maybe[])[];

/** Arrays are in the order of the covariates; null where there is no finite estimate. */
export interface AcceleratedFit {
  readonly law: TimeLaw;
  readonly names: readonly string[];
  readonly intercept: Maybe;
  readonly coefficients: readonly Maybe[];
  /** 1 for the exponential law. */
  readonly scale: Maybe;
  /** Log of the scale; null also for the exponential law, where it is not estimated. */
  readonly logScale: Maybe;
  /** Of the generalised gamma law (1: Weibull, 0: log-normal); null for the others. */
  readonly shape: Maybe;
  readonly interceptStandardError: Maybe;
  /** From the observed information. */
  readonly standardErrors: readonly Maybe[];
  readonly logScaleStandardError: Maybe;
  readonly shapeStandardError: Maybe;
  /** Of intercept, coefficients, (but for the exponential law) log scale and (generalised gamma only) shape. */
  readonly covariance: MaybeMatrix;
  /** Sandwich of the same, summed within clusters; null without clusters. */
  readonly robustCovariance: MaybeMatrix | null;
  /** exp(coefficient): by what a time is multiplied for one unit more. Robust intervals and p-values where there are clusters; so below. */
  readonly timeRatios: readonly AcceleratedRatio[];
  /** exp(-coefficient / scale), delta method: for the exponential and the Weibull law, where hazards are proportional; else null. */
  readonly hazardRatios: readonly AcceleratedRatio[] | null;
  /** The same for the log-logistic law, where the odds of the event by any time are proportional; else null. */
  readonly oddsRatios: readonly AcceleratedRatio[] | null;
  /** Of the times themselves, not of their logarithms. */
  readonly logLikelihood: Maybe;
  /** With intercept, scale and shape only. */
  readonly logLikelihoodNull: Maybe;
  readonly likelihoodRatio: TestResult;
  readonly wald: TestResult;
  readonly robustWald: TestResult | null;
  readonly aic: Maybe;
  /** Estimated parameters, scale and shape among them. */
  readonly parameters: number;
  readonly iterations: number;
  readonly converged: boolean;
  /** Largest absolute first derivative at the end by b / scale and 1 / scale, covariates in standard deviations. */
  readonly finalGradient: Maybe;
  readonly n: number;
  /** Summed weights of each kind of row; `uninformative`: neither start nor end known. */
  readonly rows: {
    readonly exact: number;
    readonly rightCensored: number;
    readonly leftCensored: number;
    readonly interval: number;
    readonly uninformative: number;
  };
  readonly level: number;
  /** The gravest thing to be said; each covariate has its own reason in `timeRatios`. */
  readonly status: AcceleratedStatus;
}
