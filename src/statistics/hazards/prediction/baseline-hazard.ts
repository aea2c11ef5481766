import { ArgumentError, checkColumn, checkIsColumn } from "../../shared/arguments.js";
import type { Reason } from "../../shared/figure.js";
import { checkedBy, checkWord, type OptionsOf, readOptions, withDefault } from "../../shared/options.js";
import type { HazardModel } from "../fit/model.js";
import { checkModel } from "../fit/model.js";
import { asDoubles } from "../layout/layout.js";
import { baselineTables, fitFailure, logHazardOf, standardisedRow } from "./baseline-table.js";

const covariateValues = checkedBy<"zero" | "means" | readonly number[]>((value, name) => {
  if (typeof value !== "object" || value === null) checkWord({ name, value }, ["zero", "means"]);
});

export const baselineOptions = {
  /** Covariates for which the hazard is told: all 0, their (weighted) means over the rows, or values in order. Default "means". */
  at: withDefault(covariateValues, "means"),
};

export interface BaselineOptions extends OptionsOf<typeof baselineOptions> {}

/** Cumulative hazard at the event times of one stratum, ascending; null where the number is too large to hold. */
export interface StratumHazard {
  readonly stratum: number;
  readonly times: readonly number[];
  readonly cumulative: readonly (number | null)[];
}

export interface BaselineHazard {
  /** The covariates meant, in order. */
  readonly at: readonly number[];
  readonly strata: readonly StratumHazard[];
  readonly reason: Reason | null;
}

const covariateMeans = ({ columns }: HazardModel): number[] => {
  const weights = columns.weights && asDoubles(columns.weights);
  const whole = weights ? weights.reduce((sum, w) => sum + w, 0) : columns.times.length;
  return columns.covariates.columns.map((values) => {
    let sum = 0;
    for (let row = 0; row < values.length; row++) sum += (weights ? weights[row]! : 1) * values[row]!;
    return whole > 0 ? sum / whole : 0;
  });
};

/** @throws ArgumentError for a value that is not finite, or one too many or too few */
export function checkCovariateRow(
  values: ArrayLike<number>,
  question: { readonly name: string; readonly size: number },
): void {
  const { name, size } = question;
  checkIsColumn({ name, values });
  if (values.length !== size)
    throw new ArgumentError({
      argument: name,
      index: null,
      expected: `one value a covariate (${size})`,
      found: `${values.length} values`,
    });
  checkColumn({ name, values }, "finite");
}

function covariatesAt(model: HazardModel, at: "zero" | "means" | readonly number[]): readonly number[] {
  if (at === "zero") return model.fit.names.map(() => 0);
  if (at === "means") return covariateMeans(model);
  checkCovariateRow(at, { name: "at", size: model.fit.names.length });
  return at;
}

/**
 * Cumulative baseline hazard of a fitted regression, by stratum.
 *
 * Its increment at an event time is the sum over the denominators of the time of weight / denominator: Breslow d / s0; Efron as many terms
 * as events, the events' own risk taken off bit by bit.
 *
 * @returns no strata, and the reason, for a fit without finite coefficients
 * @throws ArgumentError for a model with exact ties, or covariates that do not fit
 * @source Breslow 1972, J R Stat Soc B 34:216; tied times: Efron 1977, J Am Stat Assoc 72:557
 */
export function baselineHazard(model: HazardModel, options: BaselineOptions = {}): BaselineHazard {
  checkModel(model);
  const at = covariatesAt(model, readOptions(baselineOptions, options).at);
  const reason = fitFailure(model);
  if (reason !== null) return { at, strata: [], reason };
  const ratio = Math.exp(logHazardOf(model, standardisedRow(model, at)));
  const strata = baselineTables(model).map(({ stratum, times, hazard }) => ({
    stratum,
    times: Array.from(times),
    cumulative: Array.from(hazard, (value) => (Number.isFinite(value * ratio) ? value * ratio : null)),
  }));
  return { at, strata, reason: null };
}
