import type { Reason } from "../../figure.js";
import type { Difference, Ratio } from "../../survival/contrast.js";
import type { Covariates } from "../covariates.js";

/** What everybody in the population is set to: covariate by name. */
export interface Setting {
  readonly name: string;
  readonly values: Readonly<Record<string, number>>;
}

/** Whose covariates are averaged over. */
export interface Population {
  readonly covariates: Covariates;
  readonly weights?: ArrayLike<number>;
  /** Needed where the model has several strata. */
  readonly strata?: ArrayLike<number>;
}

export interface StandardisedOptions {
  /** At least one; the others are contrasted with the first. */
  readonly settings: readonly Setting[];
  /** Landmarks, in the unit of the model's times. */
  readonly times: ArrayLike<number>;
  /** For the restricted mean; left out: none. */
  readonly horizon?: number;
  /** Default: the model's own rows with their weights. Where a subject has several rows, say whose covariates count. */
  readonly population?: Population;
  /** Default 0.95. */
  readonly level?: number;
}

/** A mean over the population, with a normal interval. */
export interface StandardisedMean {
  readonly estimate: number;
  readonly standardError: number;
  readonly lower: number;
  readonly upper: number;
}

export interface StandardisedSetting {
  readonly name: string;
  /** Share without the event at each landmark. */
  readonly notYet: readonly StandardisedMean[];
  readonly restrictedMean: StandardisedMean | null;
}

/** A setting against the first one. */
export interface StandardisedContrast {
  readonly name: string;
  readonly against: string;
  /** Of the shares without the event, at each landmark. */
  readonly differences: readonly Difference[];
  readonly ratios: readonly Ratio[];
  readonly restrictedMean: { readonly difference: Difference; readonly ratio: Ratio } | null;
}

export interface StandardisedPredictions {
  readonly times: readonly number[];
  readonly horizon: number | null;
  /** The horizon lies after the last time of some stratum: its curve is carried flat. */
  readonly beyondFollowUp: boolean;
  readonly settings: readonly StandardisedSetting[];
  readonly contrasts: readonly StandardisedContrast[];
  readonly level: number;
  readonly reason: Reason | null;
}
