import { power } from "../statistics/shared/power.js";
import type { Generator } from "../statistics/shared/random.js";
import { daysAtRate, delayDays, happens, timesByCourse } from "./chance.js";
import type { Scenario } from "./scenario.js";
import type { FirstTreatment } from "./scenario-course.js";
import type { DrawnGrade } from "./scenario-grade.js";
import type { ScenarioSite } from "./scenario-site.js";

/** What is settled about an injury before its course is drawn. */
export interface CourseGiven {
  readonly site: ScenarioSite;
  readonly grade: DrawnGrade;
  /** The treatment decided on. */
  readonly treatment: FirstTreatment;
}

/** What would happen to an injury if nobody stopped looking; whole days from the injury. */
export interface Course {
  readonly firstVisit: number;
  /** First treatment. */
  readonly treatment: FirstTreatment;
  /** Day on which it began; null for `none`. */
  readonly start: number | null;
  readonly fullClimbing: number;
  /** Day of giving up climbing and of a new rupture; Infinity for a hazard of 0. */
  readonly gaveUp: number;
  readonly newRupture: number;
}

/**
 * Time to full climbing in days, not rounded.
 *
 * Under tape the cumulative hazard is that of a Weibull distribution with shape k and median m,
 * H(t) = ln 2 (t / m)^k. Another treatment multiplies the hazard by its ratio r from its start s on:
 * H(t) = H_tape(s) + r (H_tape(t) - H_tape(s)) for t > s. Within a grade the hazards are proportional from s on, with the
 * ratio that the scenario names; a later change of treatment leaves the time as it was, so that the ratio belongs to the
 * first treatment. The returned t solves H(t) = e.
 *
 * @param at e, a draw of the unit exponential; start s of the treatment in days, null for none decided on (rest is taken
 *   from day 0)
 * @source Weibull hazard: definition of the distribution; inversion: Bender, Augustin & Blettner 2005, Stat Med 24:1713
 */
export function timeToFullClimbing(
  { return: back }: Scenario,
  at: {
    readonly grade: DrawnGrade;
    readonly treatment: FirstTreatment;
    readonly start: number | null;
    readonly unitExponential: number;
  },
): number {
  const shape = back.shape[at.grade];
  const median = back.median_weeks[at.grade] * 7;
  const ratio = at.treatment === "tape" ? 1 : back.hazard_ratio[at.treatment];
  const spentAtStart = Math.LN2 * power((at.start ?? 0) / median, shape);
  const spentAsIfTaped =
    at.unitExponential <= spentAtStart
      ? at.unitExponential
      : spentAtStart + (at.unitExponential - spentAtStart) / ratio;
  return median * power(spentAsIfTaped / Math.LN2, 1 / shape);
}

/**
 * Draws the course of one injury. A milestone is reached on the whole day that follows it: in (90, 91] is day 91.
 * Within a grade giving up depends on the return as the scenario says (not at all, unless it does), and the hazard of a new rupture is that of
 * the scenario before the return and a multiple of it after that.
 *
 * Whoever would be back before the first visit or the planned start is seen, and treated, on the day before the return at the
 * latest. So who is in the data, and in which group, does not depend on the return: the groups differ by grade alone.
 */
export function drawCourse(
  given: CourseGiven & { readonly scenario: Scenario },
  { generator, unitExponential }: { readonly generator: Generator; readonly unitExponential: number },
): Course {
  const { scenario, site, grade, treatment } = given;
  const firstVisit = delayDays(site.referral_delay, generator);
  const planned =
    treatment === "none"
      ? null
      : firstVisit + delayDays(scenario.treatment.start_delay[treatment], generator);
  const time = timeToFullClimbing(scenario, { grade, treatment, start: planned, unitExponential });
  const fullClimbing = Math.max(1, Math.ceil(time));
  const { ends } = scenario;
  const givesUp =
    ends.gave_up_per_week *
    ends.gave_up_multiplier[treatment] *
    timesByCourse(ends.gave_up_by_course, unitExponential);
  const noRuptureBefore = Math.max(firstVisit, Math.round(ends.new_rupture_from_week * 7));
  const gaveUp = firstVisit + daysAtRate(givesUp, generator);
  const newRupture = noRuptureBefore + daysAtRate(ends.new_rupture_per_week, generator);
  return {
    firstVisit: Math.min(firstVisit, fullClimbing - 1),
    treatment,
    start: planned === null ? null : Math.min(planned, fullClimbing - 1),
    fullClimbing,
    gaveUp,
    newRupture: ruptureAfter(newRupture, {
      from: Math.max(fullClimbing, noRuptureBefore),
      times: ends.new_rupture_after_return,
    }),
  };
}

/**
 * A day of a new rupture drawn at one hazard, where the hazard is a multiple of it from a day on: of an exponential wait what is left after that
 * day is exponential again, and is divided by the multiple.
 */
function ruptureAfter(
  day: number,
  { from, times }: { readonly from: number; readonly times: number },
): number {
  if (day <= from || times === 1) return day;
  return from + Math.ceil((day - from) / times);
}

/** The milestones around full climbing: easy climbing before it, the previous level after it, or never (null). */
export function drawOtherMilestones(
  { scenario, grade, fullClimbing }: { scenario: Scenario; grade: DrawnGrade; fullClimbing: number },
  generator: Generator,
): { readonly easyClimbing: number; readonly previousLevel: number | null } {
  const back = scenario.return;
  const { lowest, highest } = back.easy_fraction;
  const fraction = lowest + (highest - lowest) * generator.uniform();
  const median_days = back.previous_delay_weeks[grade] * 7;
  const delay = delayDays({ median_days, log_sd: back.previous_log_sd, longest_days: 3650 }, generator);
  return {
    easyClimbing: Math.max(1, Math.ceil(fullClimbing * fraction)),
    previousLevel: happens(back.never_previous[grade], generator) ? null : fullClimbing + delay,
  };
}
