import { dateOfDay, daysBetween } from "../schema/dates.js";
import type { InjuryRow } from "../schema/injuries.js";
import type { VisitRow } from "../schema/visits.js";
import type { Generator } from "../statistics/shared/random.js";
import type { DrawnInjury } from "./injury.js";
import { levelAt } from "./levels.js";

/**
 * Writes the contacts of one injury down. What a visit says of a milestone agrees with the date that the injuries table
 * has for it; pain and scores fall as the return comes near (design choice; no result rests on them).
 */
export function visitRowsOf(
  { drawn, row }: { readonly drawn: DrawnInjury; readonly row: InjuryRow },
  generator: Generator,
): VisitRow[] {
  const { place, followUp, course } = drawn;
  const last = followUp.visits.length - 1;
  const reachedBy = {
    easy: dayReached(row, "easy_climbing"),
    full: dayReached(row, "full_climbing"),
    previous: dayReached(row, "previous_level"),
  };
  // The row is written out in full: a literal of a fixed shape is many times faster to make than one put together.
  return followUp.visits.map((day, index): VisitRow => {
    const said = (reached: number) => (day >= reached ? "yes" : "no");
    const trouble = Math.exp((-1.4 * day) / course.fullClimbing);
    const pain = Math.max(0, Math.min(10, Math.round(7 * trouble + generator.normal())));
    return {
      injury_id: place.id,
      date: dateOfDay(place.day + day),
      kind: index > 0 && index === last ? "phone" : "clinic",
      easy_climbing: said(reachedBy.easy),
      full_climbing: said(reachedBy.full),
      previous_level: said(reachedBy.previous),
      pain_rest: Math.round(pain / 3),
      pain_load: pain,
      quickdash: Math.max(0, Math.min(100, Math.round(45 * trouble + 6 * generator.normal()))),
      dash: null,
      prwe: null,
      michigan_hand: null,
      single_numeric: Math.max(0, Math.min(100, Math.round(100 - 60 * trouble + 6 * generator.normal()))),
      satisfaction: null,
      pip_flexion_deg: null,
      pip_extension_deficit_deg: null,
      dip_flexion_deg: null,
      grip_kg: null,
      grip_other_kg: null,
      finger_force_n: null,
      finger_force_other_n: null,
      level_now:
        index === last ? row.level_after : day >= reachedBy.previous ? levelAt(drawn.person.level) : null,
      complication: "none",
      note: null,
    };
  });
}

/** Day from the injury on which, or by which, the row says that a milestone was reached; Infinity where it does not. */
function dayReached(row: InjuryRow, milestone: "easy_climbing" | "full_climbing" | "previous_level"): number {
  const date = row[`${milestone}_date`] ?? row[`${milestone}_not_after`];
  return date === null ? Number.POSITIVE_INFINITY : daysBetween(row.injury_date, date);
}
