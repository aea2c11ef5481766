import type { Covariates } from "../../shared/covariates.js";
import type { Reason } from "../../shared/figure.js";
import {
  checkColumnNames,
  checkedBy,
  confidenceLevel,
  list,
  type NamesOf,
  needed,
  number,
  type OptionsOf,
} from "../../shared/options.js";
import type { Difference, Ratio } from "../../survival/contrast.js";

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

const populationNames: NamesOf<Population> = { covariates: true, weights: true, strata: true };

export const standardisedOptions = {
  /** At least one; the others are contrasted with the first. */
  settings: needed(list<readonly Setting[]>("an array of settings")),
  /** Landmarks, in the unit of the model's times. */
  times: needed(list<ArrayLike<number>>()),
  /** For the restricted mean; left out: none. */
  horizon: number("positive"),
  /** Default: the model's own rows with their weights. Where a subject has several rows, say whose covariates count. */
  population: checkedBy<Population>((value, name) => {
    checkColumnNames(populationNames, { [name]: value as Population });
  }),
  /** Default 0.95. */
  level: confidenceLevel,
};

export interface StandardisedOptions extends OptionsOf<typeof standardisedOptions> {}

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
