import { dayNumber } from "../schema/dates.js";
import type { Generator } from "../statistics/shared/random.js";
import { daysAtRate, timesByCourse } from "./chance.js";
import type { Course } from "./course.js";
import type { Scenario } from "./scenario.js";
import type { DrawnGrade } from "./scenario-grade.js";
import type { ScenarioSite } from "./scenario-site.js";

/** How long an injury was followed; days from the injury. */
export interface FollowUp {
  /** Last day on which the state was known. */
  readonly lastContact: number;
  readonly ended: "lost" | "gave_up" | "new_rupture" | "completed" | "in_follow_up";
  /** Contacts in ascending order, from the first visit to the last contact. */
  readonly visits: readonly number[];
}

const daysPerMonth = 30.4375;

/** The calendar day number on which the data are closed. */
export const closingDay = (scenario: Scenario): number =>
  dayNumber(scenario.first_day) + Math.floor(scenario.administrative_end_months * daysPerMonth);

/** How many days injuries are taken in. */
export const accrualDays = (scenario: Scenario): number =>
  Math.max(1, Math.floor(scenario.accrual_months * daysPerMonth));

/**
 * Draws when the following of one injury ended and when the person was seen. It ends with the first of: loss, giving up, a
 * new rupture, the planned end, the closing of the data; or with the visit after the previous level was reached. Every end
 * is a contact, so that the state on that day is known. Within a grade loss depends on the return as the scenario says: not at all, unless it
 * does.
 */
export function drawFollowUp(
  injury: {
    readonly scenario: Scenario;
    readonly site: ScenarioSite;
    readonly grade: DrawnGrade;
    readonly place: { readonly day: number };
    readonly course: Course;
    readonly unitExponential: number;
    readonly previousLevel: number | null;
  },
  generator: Generator,
): FollowUp {
  const { scenario, site, grade, place, course, unitExponential, previousLevel } = injury;
  const { ends } = scenario;
  const planned = plannedVisits({ site, course }, generator);
  const lost =
    ends.lost_per_week * ends.lost_multiplier[grade] * timesByCourse(ends.lost_by_course, unitExponential);
  const discharged =
    previousLevel === null
      ? Number.POSITIVE_INFINITY
      : (planned.find((day) => day >= previousLevel) ?? previousLevel + generator.integer(28));
  const candidates = [
    ["lost", course.firstVisit + daysAtRate(lost, generator)],
    ["gave_up", course.gaveUp],
    ["new_rupture", course.newRupture],
    ["completed", Math.min(discharged, Math.round(ends.follow_up_weeks * 7))],
    ["in_follow_up", closingDay(scenario) - place.day],
  ] as const;
  const [ended, day] = candidates.reduce((first, next) => (next[1] < first[1] ? next : first));
  const lastContact = Math.max(day, course.firstVisit);
  const visits = planned.filter((visit) => visit < lastContact);
  return { lastContact, ended, visits: [...visits, lastContact] };
}

/** The first visit and those planned after it, with their spread, strictly ascending. */
function plannedVisits(
  { site, course }: { readonly site: ScenarioSite; readonly course: Course },
  generator: Generator,
): number[] {
  const { firstVisit, treatment } = course;
  const days = [firstVisit];
  for (const week of site.visit_weeks_by_treatment[treatment] ?? site.visit_weeks) {
    const spread = generator.integer(2 * site.visit_spread_days + 1) - site.visit_spread_days;
    const day = firstVisit + Math.round(week * 7) + spread;
    if (day > days.at(-1)!) days.push(day);
  }
  return days;
}
