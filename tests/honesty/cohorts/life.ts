import type { Chance } from "./chance.js";
import {
  type Grade,
  gradeShares,
  grades,
  halfBackUnderTape,
  ofPerson,
  type Program,
  type Rate,
  type Treatment,
} from "./program.js";

/** What really happens to one injury, in days from it; infinite where it never happens. Nobody need get to know of it. */
export interface Life {
  readonly grade: Grade;
  readonly treatment: Treatment;
  /** The first day of a treatment, which is that of the first visit. */
  readonly comes: number;
  readonly back: number;
  /** Days of the ends before any return. */
  readonly gaveUp: number;
  readonly rupturedBefore: number;
  readonly rupturedAfter: number;
  /** Last day on which the clinic hears of the injury, if nothing else ends that. */
  readonly heardUntil: number;
}

export type Person = readonly Life[];

const week = 7;
const month = 30.4375;
const firstGivingUp = 4 * week;
const ruptureBefore = 0.0015 / week;
const followedFor = 40 * week;
const never = Number.POSITIVE_INFINITY;

const daily = ({ weekly, slow }: Rate, slowness: number): number =>
  (weekly / week) * Math.exp(slow * slowness);

/** One person, with one injury or two. */
export function livePerson(program: Program, chance: Chance): Person {
  const { uniform } = chance;
  const slowness = chance.normal();
  const fingers = uniform() < program.twoFingers ? 2 : 1;
  const own = Array.from({ length: fingers }, () => gradeOf(uniform()));
  // fingers of one person are treated alike, by the grade of the first
  const treatment = uniform() < program.ringed[own[0]!] ? "ring" : "tape";
  const comes = firstVisit(program, chance);
  const person = {
    treatment,
    comes,
    slowness,
    givesUp: firstGivingUp + Math.ceil(chance.wait(daily(program.givingUp[treatment], slowness))),
    heardUntil: Math.min(followedFor, comes + Math.ceil(chance.wait(daily(program.loss, slowness)))),
  } as const;
  return own.map((grade) => liveInjury({ ...person, grade }, program, chance));
}

interface Injured extends Pick<Life, "grade" | "treatment" | "comes" | "heardUntil"> {
  readonly slowness: number;
  readonly givesUp: number;
}

function liveInjury(injured: Injured, program: Program, chance: Chance): Life {
  const { grade, treatment, comes, heardUntil, slowness, givesUp } = injured;
  const own = Math.sqrt(1 - ofPerson * ofPerson) * chance.normal();
  const days = halfBackUnderTape[grade] * program.course(ofPerson * slowness + own);
  const wouldBeBack = Math.ceil(treatment === "ring" ? program.withRing(days) : days);
  const ruptures = Math.ceil(chance.wait(ruptureBefore));
  const rupturedSince = Math.ceil(chance.wait(program.newRuptures / month));
  const isBack = wouldBeBack <= givesUp && wouldBeBack <= ruptures;
  return {
    grade,
    treatment,
    comes,
    heardUntil,
    back: isBack ? wouldBeBack : never,
    gaveUp: !isBack && givesUp < ruptures ? givesUp : never,
    rupturedBefore: !isBack && ruptures <= givesUp ? ruptures : never,
    rupturedAfter: isBack ? wouldBeBack + rupturedSince : never,
  };
}

/** Nobody comes who is back, or has come to another end, by then. */
export const cameToClinic = ({ comes, back, gaveUp, rupturedBefore }: Life): boolean =>
  comes < Math.min(back, gaveUp, rupturedBefore);

function gradeOf(u: number): Grade {
  let below = 0;
  for (const grade of grades) {
    below += gradeShares[grade];
    if (u < below) return grade;
  }
  return grades.at(-1)!;
}

function firstVisit({ comingLate }: Program, { uniform }: Chance): number {
  const [from, until] = uniform() < comingLate ? [3 * week, 10 * week] : [1, week];
  return from + Math.floor(uniform() * (until - from + 1));
}
