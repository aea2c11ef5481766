import { dateOfDay } from "../schema/dates.js";
import { type InjuryRow, injuryRow } from "../schema/injuries.js";
import type { Generator } from "../statistics/shared/random.js";
import { choose, happens } from "./chance.js";
import { type DrawnCells, declaredCells } from "./declared-cells.js";
import type { DrawnInjury } from "./injury.js";
import { levelAt } from "./levels.js";
import { type DateHabit, type WrittenMilestone, writeMilestone } from "./milestone-dates.js";
import type { Scenario } from "./scenario.js";
import type { DrawnGrade } from "./scenario-grade.js";
import type { ScenarioSite } from "./scenario-site.js";

/** How it begins without a pop: design choices that no result depends on. */
const onsets = {
  withoutPop: { sudden_without_pop: 5, gradual: 3, unknown: 1 },
  strain: { sudden_without_pop: 3, gradual: 5, unknown: 1 },
} as const;

/** Drawn in this order by the generator of the cohort, so that a seed gives the cohort that it always gave. */
const common = [
  "grip",
  "mechanism",
  "setting",
  "prior_injury_same_finger",
  "other_side_ever_injured",
] as const satisfies readonly (keyof InjuryRow)[];

/** Makes the cells of injuries that their fields declare. */
export const declaredOfInjuries = (cohort: { readonly seed: number; readonly stream: number }) =>
  declaredCells(injuryRow, { ...cohort, common });

const gradeSpellings: Record<ScenarioSite["grade_words"], Record<DrawnGrade, string>> = {
  plain: { "1": "1", "2": "2", "3": "3", "4a": "4a", "4b": "4b" },
  roman: { "1": "I", "2": "II", "3": "III", "4a": "IVa", "4b": "IVb" },
  spelled_out: { "1": "grade 1", "2": "grade 2", "3": "grade 3", "4a": "grade 4a", "4b": "grade 4b" },
};

const endStatuses = {
  lost: "lost",
  gave_up: "gave_up",
  new_rupture: "other",
  completed: "completed",
  in_follow_up: "in_follow_up",
} as const;

/** Writes an injury down as a row of the injuries table. */
export function injuryRowOf(
  {
    scenario,
    drawn,
    habit,
    declared,
  }: {
    readonly scenario: Scenario;
    readonly drawn: DrawnInjury;
    readonly habit: DateHabit;
    readonly declared: ReturnType<typeof declaredOfInjuries>;
  },
  generator: Generator,
): InjuryRow {
  const { person, place, grade, pattern, course, followUp } = drawn;
  const dateOf = (day: number): string => dateOfDay(place.day + day);
  const dateOrBlank = (day: number | null): string | null => (day === null ? null : dateOf(day));
  const seen = { habit, injuryDay: place.day, lastContact: followUp.lastContact, visits: followUp.visits };
  const easy = writeMilestone(drawn.easyClimbing, seen);
  const full = writeMilestone(course.fullClimbing, seen);
  const previous = writeMilestone(drawn.previousLevel, seen);
  const pop = happens(scenario.injury.pop_share[grade], generator);
  const bowstringing = bowstringingOf(grade, generator);
  const onset = pop ? "pop" : choose(grade === "1" ? onsets.strain : onsets.withoutPop, generator);
  const declaredOfRow = declared(generator);
  const cells: DrawnCells<typeof injuryRow> = {
    injury_id: place.id,
    person_id: person.id,
    event_id: place.eventId,
    site_id: person.site.id,
    injury_date: dateOf(0),
    first_visit_date: dateOf(course.firstVisit),
    sex: person.sex,
    age_at_injury: person.age + place.yearsLater,
    hand: place.hand,
    dominant_hand: person.dominantHand,
    finger: place.finger,
    pulleys: pattern.pulleys,
    pulley_extents: pattern.extents,
    grade,
    grade_as_written: gradeSpellings[person.site.grade_words][grade],
    bowstringing,
    onset,
    years_climbing: person.yearsClimbing + place.yearsLater,
    level_before: levelAt(person.level),
    level_after: levelAfter({ drawn, full, previous }, generator),
    body_mass_kg: person.bodyMassKg,
    height_cm: person.heightCm,
    last_contact_date: dateOf(followUp.lastContact),
    end_status: endStatuses[followUp.ended],
    easy_climbing_date: dateOrBlank(easy.day),
    easy_climbing_precision: easy.precision,
    easy_climbing_not_before: dateOrBlank(easy.notBefore),
    easy_climbing_not_after: dateOrBlank(easy.notAfter),
    full_climbing_date: dateOrBlank(full.day),
    full_climbing_precision: full.precision,
    full_climbing_not_before: dateOrBlank(full.notBefore),
    full_climbing_not_after: dateOrBlank(full.notAfter),
    previous_level_date: dateOrBlank(previous.day),
    previous_level_precision: previous.precision,
    previous_level_not_before: dateOrBlank(previous.notBefore),
    previous_level_not_after: dateOrBlank(previous.notAfter),
    new_rupture_date: followUp.ended === "new_rupture" ? dateOf(followUp.lastContact) : null,
    gave_up_date: followUp.ended === "gave_up" ? dateOf(followUp.lastContact) : null,
  };
  return { ...declaredOfRow, ...cells };
}

/** None in strains, never visible in 4a, visible in 4b: what the grades mean (common practice, no source). */
function bowstringingOf(grade: DrawnGrade, generator: Generator): InjuryRow["bowstringing"] {
  if (grade === "1") return "none";
  if (grade === "4b") return "visible";
  return happens(grade === "2" ? 0.15 : 0.6, generator) ? "imaging_only" : "none";
}

/** The old level or a step above it once regained; one to four steps below after full climbing; else not recorded. */
function levelAfter(
  { drawn, full, previous }: { drawn: DrawnInjury; full: WrittenMilestone; previous: WrittenMilestone },
  generator: Generator,
): string | null {
  if (isKnown(previous)) return levelAt(drawn.person.level + (happens(0.2, generator) ? 1 : 0));
  return isKnown(full) ? levelAt(drawn.person.level - 1 - generator.integer(4)) : null;
}

const isKnown = ({ day, notAfter }: WrittenMilestone): boolean => day !== null || notAfter !== null;
