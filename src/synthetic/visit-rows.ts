import { dateOfDay, daysBetween } from "../schema/dates.js";
import type { InjuryRow } from "../schema/injuries.js";
import type { VisitRow, visitRow } from "../schema/visits.js";
import type { Generator } from "../statistics/shared/random.js";
import { complicationAt } from "./complication.js";
import type { DeclaredCells, DrawnCells } from "./declared-cells.js";
import type { DrawnInjury } from "./injury.js";
import { levelAt } from "./levels.js";
import type { Scenario } from "./scenario.js";

/**
 * Writes the contacts of one injury down. What a visit says of a milestone agrees with the date that the injuries table
 * has for it; pain and scores fall as the return comes near (design choice; no result rests on them).
 */
export function visitRowsOf(
  {
    scenario,
    drawn,
    row,
    declared,
  }: {
    readonly scenario: Scenario;
    readonly drawn: DrawnInjury;
    readonly row: InjuryRow;
    readonly declared: (generator: Generator) => DeclaredCells<typeof visitRow>;
  },
  generator: Generator,
): VisitRow[] {
  const { place, followUp, course } = drawn;
  const last = followUp.visits.length - 1;
  const reachedBy = {
    easy: dayReached(row, "easy_climbing"),
    full: dayReached(row, "full_climbing"),
    previous: dayReached(row, "previous_level"),
  };
  const complicated = complicationAt({ scenario, drawn }, generator);
  return followUp.visits.map((day, i): VisitRow => {
    const said = (reached: number) => (day >= reached ? "yes" : "no");
    const trouble = Math.exp((-1.4 * day) / course.fullClimbing);
    const pain = Math.max(0, Math.min(10, Math.round(7 * trouble + generator.normal())));
    const cells: DrawnCells<typeof visitRow> = {
      injury_id: place.id,
      date: dateOfDay(place.day + day),
      kind: i > 0 && i === last ? "phone" : "clinic",
      easy_climbing: said(reachedBy.easy),
      full_climbing: said(reachedBy.full),
      previous_level: said(reachedBy.previous),
      pain_rest: Math.round(pain / 3),
      pain_load: pain,
      quickdash: Math.max(0, Math.min(100, Math.round(45 * trouble + 6 * generator.normal()))),
      single_numeric: Math.max(0, Math.min(100, Math.round(100 - 60 * trouble + 6 * generator.normal()))),
      level_now:
        i === last ? row.level_after : day >= reachedBy.previous ? levelAt(drawn.person.level) : null,
    };
    const found = complicated?.visit === i ? { complication: complicated.complication } : {};
    return { ...declared(generator), ...cells, ...found };
  });
}

/** Day from the injury on which, or by which, the row says that a milestone was reached; Infinity where it does not. */
function dayReached(row: InjuryRow, milestone: "easy_climbing" | "full_climbing" | "previous_level"): number {
  const date = row[`${milestone}_date`] ?? row[`${milestone}_not_after`];
  return date === null ? Number.POSITIVE_INFINITY : daysBetween(row.injury_date, date);
}
