import { daysBetween, type IsoDate } from "../schema/dates.js";
import type { Covariates, DistancePair, LinkedInjury } from "./record.js";

/**
 * The values a study may compare by or adjust for. A term that says 'unknown' or 'not stated' is read as not
 * recorded; an undivided grade 4 is a grade of its own.
 *
 * @param distances the pairs of the same injury
 */
export function covariatesOf(
  { injury: { values } }: LinkedInjury,
  distances: readonly DistancePair[],
): Covariates {
  return {
    grade: values.grade === "unknown" ? null : values.grade,
    sex: values.sex === "not_stated" ? null : values.sex,
    finger: values.finger === "not_stated" ? null : values.finger,
    hand: values.hand === "not_stated" ? null : values.hand,
    site_id: values.site_id,
    bowstringing: values.bowstringing,
    onset: values.onset === "unknown" ? null : values.onset,
    age_at_injury: values.age_at_injury,
    years_climbing: values.years_climbing,
    delay_days: delay(values.injury_date, values.first_visit_date),
    distance_loaded_first:
      distances.find(({ pulley, position }) => pulley === values.pulleys[0] && position === "loaded")
        ?.baselineMm ?? null,
  };
}

/** An injury dated to the week or month may seem to lie after the first visit: its delay is then not known. */
function delay(injury: IsoDate, firstVisit: IsoDate | null): number | null {
  const days = firstVisit === null ? null : daysBetween(injury, firstVisit);
  return days !== null && days >= 0 ? days : null;
}
