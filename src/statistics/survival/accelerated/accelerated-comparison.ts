import type { Reason } from "../../shared/figure.js";
import {
  checkColumnNames,
  checkWord,
  list,
  type OptionsOf,
  readOptions,
  withDefault,
} from "../../shared/options.js";
import type { AcceleratedColumns } from "./accelerated-columns.js";
import { acceleratedColumnsNames } from "./accelerated-columns.js";
import { type AcceleratedFit, type AcceleratedStatus, acceleratedOptions } from "./accelerated-fit.js";
import { type AcceleratedWithInfluences, fitAccelerated } from "./accelerated-model.js";
import { type TimeLaw, timeLaws } from "./error-laws.js";

const { law: _, ...withoutLaw } = acceleratedOptions;

const compareLawsOptions = {
  ...withoutLaw,
  /** Laws to be compared. Default all five. */
  laws: withDefault(list<readonly TimeLaw[]>("an array of laws"), timeLaws),
};

export interface CompareLawsOptions extends OptionsOf<typeof compareLawsOptions> {}

export interface LawInComparison {
  readonly fit: AcceleratedFit;
  /** Less the smallest of all; null without a likelihood. */
  readonly aicDifference: number | null;
}

/** Infinite where there is no maximum, so that such a law comes last. */
const aicOf = ({ aic, status }: AcceleratedFit): number =>
  aic === null || status === "not-converged" ? Number.POSITIVE_INFINITY : aic;

/** Fits of the laws in order of AIC, those without a maximum last; equal ones as listed. */
export function inOrderOfAic(
  columns: AcceleratedColumns,
  options: CompareLawsOptions,
): AcceleratedWithInfluences[] {
  const { laws, ...asked } = readOptions(compareLawsOptions, options);
  for (const [index, value] of laws.entries()) checkWord({ name: `laws[${index}]`, value }, timeLaws);
  return laws
    .map((law) => fitAccelerated(columns, { ...asked, law }))
    .toSorted((a, b) => (aicOf(a.fit) === aicOf(b.fit) ? 0 : aicOf(a.fit) - aicOf(b.fit)));
}

/** The fits with their distance from the best. */
export function compared(fits: readonly AcceleratedFit[]): LawInComparison[] {
  const least = Math.min(...fits.map(aicOf));
  return fits.map((fit) => ({
    fit,
    aicDifference: Number.isFinite(aicOf(fit)) ? aicOf(fit) - least : null,
  }));
}

/**
 * The same model under several laws, in order of Akaike's information criterion, -2 log-likelihood + 2 parameters; those without a maximum
 * last. Equal ones stay in the order in which the laws are listed: exponential, Weibull, log-normal, log-logistic,
 * generalised gamma, where nothing else is asked for.
 *
 * @throws ArgumentError as acceleratedModel, and for a word that is no law
 * @source Akaike 1974, IEEE Trans Automat Contr 19:716
 */
export function compareLaws(
  columns: AcceleratedColumns,
  options: CompareLawsOptions = {},
): LawInComparison[] {
  checkColumnNames(acceleratedColumnsNames, { columns });
  return compared(inOrderOfAic(columns, options).map(({ fit }) => fit));
}

/** What was chosen, and all that it was chosen from. */
export interface ChosenLaw {
  /** Null where no law has a maximum. */
  readonly chosen: AcceleratedFit | null;
  /** In order of AIC, those without a maximum last. */
  readonly compared: readonly LawInComparison[];
  /** Laws that did not take part, with what stood in the way. */
  readonly leftOut: readonly { readonly law: TimeLaw; readonly status: AcceleratedStatus }[];
  readonly reason: Reason | null;
}

/** Laws among which one is chosen: two parameters each, and the family that joins two of them. */
export const chosenAmong = ["log-normal", "log-logistic", "weibull", "generalised-gamma"] as const;

const lawsToChoose = withDefault(list<readonly TimeLaw[]>("an array of laws"), chosenAmong);

/**
 * The law with the smallest AIC. Of equal ones the first in the list of laws, which by default are log-normal, log-logistic, Weibull and
 * generalised gamma; so a law of two parameters is taken before one of three that is no better.
 *
 * @returns `chosen` null with the reason of the first law where none has a maximum
 * @throws ArgumentError as acceleratedModel, and for a word that is no law
 * @source Akaike 1974, IEEE Trans Automat Contr 19:716; Burnham & Anderson 2002, Model Selection and Multimodel Inference
 * @example
 * chooseLaw({ left: [42, 56, 56, 70, 0], right: [42, 60, null, 84, 49], covariates: { names: [], columns: [] } }).compared.length // => 4
 */
export function chooseLaw(columns: AcceleratedColumns, options: CompareLawsOptions = {}): ChosenLaw {
  checkColumnNames(acceleratedColumnsNames, { columns });
  const asked = readOptions({ ...compareLawsOptions, laws: lawsToChoose }, options);
  const table = compared(inOrderOfAic(columns, asked).map(({ fit }) => fit));
  const best = table[0];
  const usable = best !== undefined && best.aicDifference !== null;
  return {
    chosen: usable ? best.fit : null,
    compared: table,
    leftOut: table
      .filter(({ aicDifference }) => aicDifference === null)
      .map(({ fit }) => ({ law: fit.law, status: fit.status })),
    reason: usable ? null : reasonOf(best?.fit),
  };
}

/** Why there is no fit. */
export function reasonOf(fit: AcceleratedFit | undefined): Reason {
  const status = fit?.status;
  if (status === "no-rows" || status === "no-events" || status === "not-converged") return status;
  return status === "scale-to-zero" ? "no-variance" : "monotone-likelihood";
}
