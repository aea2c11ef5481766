import { checkColumnNames, type OptionsOf, readOptions } from "../../shared/options.js";
import type { AcceleratedColumns } from "./accelerated-columns.js";
import { acceleratedColumnsNames } from "./accelerated-columns.js";
import { type AcceleratedFit, acceleratedOptions } from "./accelerated-fit.js";
import { acceleratedModel } from "./accelerated-model.js";
import { timeLaws } from "./error-laws.js";

const { law: _, ...compareLawsOptions } = acceleratedOptions;

export interface CompareLawsOptions extends OptionsOf<typeof compareLawsOptions> {}

export interface LawInComparison {
  readonly fit: AcceleratedFit;
  /** Less the smallest of the four; null without a likelihood. */
  readonly aicDifference: number | null;
}

/**
 * The same model under all four laws, in order of Akaike's information criterion, -2 log-likelihood + 2 parameters; those without a maximum
 * last. Equal ones stay in the order exponential, Weibull, log-normal, log-logistic.
 *
 * @throws ArgumentError as acceleratedModel
 * @source Akaike 1974, IEEE Trans Automat Contr 19:716
 */
export function compareLaws(
  columns: AcceleratedColumns,
  options: CompareLawsOptions = {},
): LawInComparison[] {
  checkColumnNames(acceleratedColumnsNames, { columns });
  const asked = readOptions(compareLawsOptions, options);
  const fits = timeLaws.map((law) => acceleratedModel(columns, { ...asked, law }));
  const aicOf = (fit: AcceleratedFit): number =>
    fit.aic === null || fit.status === "not-converged" ? Number.POSITIVE_INFINITY : fit.aic;
  const least = Math.min(...fits.map(aicOf));
  return fits
    .toSorted((a, b) => (aicOf(a) === aicOf(b) ? 0 : aicOf(a) - aicOf(b)))
    .map((fit) => ({
      fit,
      aicDifference: Number.isFinite(aicOf(fit)) ? aicOf(fit) - least : null,
    }));
}
