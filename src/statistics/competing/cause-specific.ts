import { hazardsRegression } from "../hazards/fit/hazards-regression.js";
import { type HazardFit, hazardOptions } from "../hazards/layout/hazard-fit.js";
import type { HazardColumns } from "../hazards/layout/sorted-rows.js";
import { checkColumn, checkSameLength } from "../shared/arguments.js";
import { checkColumnNames, type NamesOf, type OptionsOf, readOptions } from "../shared/options.js";
import { causeOption, eventsOfCause, type TimesAndCauses } from "./causes.js";

/** The rows of a hazards regression with the event that came first in place of the events. */
export type CauseSpecificColumns = Omit<HazardColumns, "events"> & TimesAndCauses;

export const causeSpecificColumnsNames: NamesOf<CauseSpecificColumns> = {
  times: true,
  clusters: true,
  entries: true,
  weights: true,
  covariates: true,
  strata: true,
  causes: true,
};

export const causeSpecificOptions = {
  ...hazardOptions,
  /** Which event. Default 1. */
  cause: causeOption,
};

export interface CauseSpecificOptions extends OptionsOf<typeof causeSpecificOptions> {}

/** The fit of one cause. */
export interface CauseSpecificFit extends HazardFit {
  readonly cause: number;
}

/**
 * Cause-specific proportional-hazards regression: how covariates go with the rate of one event among those who have had none yet.
 *
 * The other events end a record's time at risk as a censoring does. That is the right likelihood for the rate; no share follows from
 * one such fit alone, since the other events decide who is left to have this one.
 *
 * @param columns as for hazardsRegression, with `causes` (0 = censored, 1, 2, ...) in place of `events`
 * @returns `no-events` where nobody had that event
 * @throws ArgumentError naming the column and index of a value at fault, or the option
 * @source Prentice, Kalbfleisch, Peterson, Flournoy, Farewell & Breslow 1978, Biometrics 34:541
 */
export function causeSpecificHazards(
  columns: CauseSpecificColumns,
  options: CauseSpecificOptions = {},
): CauseSpecificFit {
  checkColumnNames(causeSpecificColumnsNames, { columns });
  const { cause, ...rest } = readOptions(causeSpecificOptions, options);
  const { causes, ...others } = columns;
  checkSameLength({ name: "causes", values: causes }, { name: "times", values: columns.times });
  checkColumn({ name: "causes", values: causes }, "count");
  return { cause, ...hazardsRegression({ ...others, events: eventsOfCause(causes, cause) }, rest) };
}
