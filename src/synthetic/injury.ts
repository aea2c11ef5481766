import type { InjuryRow } from "../schema/injuries.js";
import { normalUpperTail } from "../statistics/shared/distributions.js";
import type { Generator } from "../statistics/shared/random.js";
import { choose, chooseIndex, happens } from "./chance.js";
import { type Course, drawCourse, drawOtherMilestones } from "./course.js";
import { drawFollowUp, type FollowUp } from "./follow-up.js";
import type { Person } from "./person.js";
import type { Scenario } from "./scenario.js";
import type { DrawnGrade } from "./scenario-grade.js";
import type { PulleyPattern } from "./scenario-injury.js";
import type { ScenarioSite } from "./scenario-site.js";

/** Where an injury sits and when it happened. */
export interface Place {
  readonly id: string;
  readonly eventId: string | null;
  /** Calendar day number. */
  readonly day: number;
  /** Whole years since the first injury of the person. */
  readonly yearsLater: number;
  readonly hand: InjuryRow["hand"];
  readonly finger: "index" | "middle" | "ring" | "little";
}

/** An injury as it really went, before anybody writes it down; days are counted from the injury. */
export interface DrawnInjury {
  readonly person: Person;
  readonly place: Place;
  readonly grade: DrawnGrade;
  readonly pattern: PulleyPattern;
  readonly course: Course;
  readonly easyClimbing: number;
  readonly previousLevel: number | null;
  readonly followUp: FollowUp;
}

/** The grade weights of one site: the mix of the scenario times the multipliers of the site. */
export function gradeWeights(scenario: Scenario, site: ScenarioSite): Readonly<Record<DrawnGrade, number>> {
  const entries = Object.entries(scenario.injury.grade_mix) as [DrawnGrade, number][];
  const weighted = entries.map(([grade, weight]) => [grade, weight * (site.grade_multiplier[grade] ?? 1)]);
  return Object.fromEntries(weighted) as Record<DrawnGrade, number>;
}

/** The weights of the first treatments in one grade at one site. */
export function treatmentWeights(
  scenario: Scenario,
  { grade, site }: { readonly grade: DrawnGrade; readonly site: ScenarioSite },
): Scenario["treatment"]["first"][DrawnGrade] {
  const weights = scenario.treatment.first[grade];
  return { ...weights, ring: weights.ring * site.ring_odds };
}

/** Draws what happened to one finger of a person. */
export function drawInjury(
  {
    scenario,
    person,
    place,
  }: { readonly scenario: Scenario; readonly person: Person; readonly place: Place },
  generator: Generator,
): DrawnInjury {
  const { site } = person;
  const grade = choose(gradeWeights(scenario, site), generator);
  const patterns = scenario.injury.pulleys[grade];
  const pattern =
    patterns[
      chooseIndex(
        patterns.map(({ weight }) => weight),
        generator,
      )
    ]!;
  const treatment = choose(treatmentWeights(scenario, { grade, site }), generator);
  const unitExponential = sharedExponential({ person, correlation: scenario.persons.correlation }, generator);
  const course = drawCourse({ scenario, site, grade, treatment }, { generator, unitExponential });
  const others = drawOtherMilestones({ scenario, grade, fullClimbing: course.fullClimbing }, generator);
  const followUp = drawFollowUp(
    { scenario, site, grade, place, course, unitExponential, ...others },
    generator,
  );
  return { person, place, grade, pattern, course, ...others, followUp };
}

/**
 * A unit exponential that is correlated between the injuries of a person and exactly exponential for each of them:
 * -log P(Z > z) of a normal z whose person part has the share `correlation` of the variance.
 */
function sharedExponential(
  { person, correlation }: { readonly person: Person; readonly correlation: number },
  generator: Generator,
): number {
  const z = Math.sqrt(correlation) * person.shared + Math.sqrt(1 - correlation) * generator.normal();
  return -Math.log(normalUpperTail(z));
}

/** Draws the place of a first injury on a given day. */
export function drawPlace(
  { scenario, id, day }: { readonly scenario: Scenario; readonly id: string; readonly day: number },
  generator: Generator,
): Place {
  const hand = happens(0.5, generator) ? "left" : "right";
  return {
    id,
    eventId: null,
    day,
    yearsLater: 0,
    hand,
    finger: choose(scenario.injury.finger_mix, generator),
  };
}
