import { adjustable, groupFields, numberFields } from "../schema/covariates.js";
import { daysBetween, type IsoDate } from "../schema/dates.js";
import { notKnown } from "../schema/terms.js";
import type { Covariates, DistancePair, LinkedInjury } from "./record.js";

/**
 * The values a study may compare by or adjust for. A term that says 'unknown' or 'not stated' is read as not
 * recorded; an undivided grade 4 is a grade of its own.
 *
 * @param distances the pairs of the same injury that have a baseline
 */
export function covariatesOf(
  { injury: { values } }: LinkedInjury,
  distances: readonly DistancePair[],
): Covariates {
  const known: Record<keyof Covariates, string | number | null> = { ...noneKnown };
  for (const field of groupFields) known[field] = sayUnknown.has(values[field]) ? null : values[field];
  for (const field of numberFields) known[field] = values[field];
  known.delay_days = delay(values.injury_date, values.first_visit_date);
  known.distance_loaded_first =
    distances.find(({ pulley, position }) => pulley === values.pulleys[0] && position === "loaded")
      ?.baselineMm ?? null;
  return known as Covariates;
}

const sayUnknown: ReadonlySet<string | null> = new Set(notKnown);
/** One shape for the covariates of all injuries, which are many. */
const noneKnown = Object.fromEntries(adjustable.map((field) => [field, null])) as Record<
  keyof Covariates,
  null
>;

/** An injury dated to the week or month may seem to lie after the first visit: its delay is then not known. */
function delay(injury: IsoDate, firstVisit: IsoDate | null): number | null {
  const days = firstVisit === null ? null : daysBetween(injury, firstVisit);
  return days !== null && days >= 0 ? days : null;
}
