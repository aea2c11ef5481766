import { checkColumn, checkSameLength } from "../arguments.js";
import type { HazardFit, HazardOptions } from "../regression/hazard-fit.js";
import type { HazardColumns } from "../regression/hazards-layout.js";
import { hazardsRegression } from "../regression/hazards-regression.js";
import { checkCause, eventsOfCause, type TimesAndCauses } from "./causes.js";

/** The rows of a hazards regression with the event that came first in place of the events. */
export type CauseSpecificColumns = Omit<HazardColumns, "events"> & TimesAndCauses;

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
 * @param options cause: which event, default 1; the others as for hazardsRegression
 * @returns `no-events` where nobody had that event
 * @throws ArgumentError naming the column and index of a value at fault, or the option
 * @source Prentice, Kalbfleisch, Peterson, Flournoy, Farewell & Breslow 1978, Biometrics 34:541
 */
export function causeSpecificHazards(
  columns: CauseSpecificColumns,
  options: HazardOptions & { readonly cause?: number } = {},
): CauseSpecificFit {
  const { cause = 1, ...rest } = options;
  checkCause(cause);
  const { causes, ...others } = columns;
  checkSameLength({ name: "causes", values: causes }, { name: "times", values: columns.times });
  checkColumn({ name: "causes", values: causes }, "count");
  return { cause, ...hazardsRegression({ ...others, events: eventsOfCause(causes, cause) }, rest) };
}
