import { isSome } from "../../charts/counts.js";
import type { Plan } from "../../study/plan.js";
import type { Results } from "../../study/results.js";
import { roundedTimes } from "../../study/specification.js";
import { capital, level, listed, weeks } from "../format.js";
import { sources } from "../words/sources.js";
import { clockWords, competingNouns, milestoneMeaning } from "../words/terms.js";

type Question = Plan["question"];

const clockBias: Readonly<Record<Question["clock"], string>> = {
  injury:
    "Time before the first visit counts, although whoever was back before it could not come into the data.",
  first_visit: "Groups that came later after the injury look faster by the delay.",
  treatment_start: "Groups that were treated later after the injury look faster by the delay.",
};

const inexactRule: Readonly<Record<Question["inexact_dates"], string>> = {
  midpoint: "the middle of the span in which it lies",
  latest: "the last day of the span in which it lies",
  earliest: "the first day of the span in which it lies",
};

/** The horizon and landmarks that the study file writes with part of a day, as they are counted. */
function wholeDayWords(plan: Plan): string[] {
  const times = roundedTimes(plan).map(
    ({ weeks: written, days: whole }) => `${weeks(written)} as day ${whole}`,
  );
  if (times.length === 0) return [];
  return [`Times of the study file are counted in whole days, each as the nearest: ${listed(times)}.`];
}

/** What was asked: milestone, clock, entry, inexact dates, competing ends, level. */
export function questionMethods({ plan, follow_up }: Results): string[] {
  const { milestone, clock, entry, inexact_dates, competing_ends } = plan.question;
  const inexact = follow_up.known.some(
    ({ code, n }) => code !== "day" && code !== "not_reached" && isSome(n),
  );
  return [
    `The milestone is ${milestoneMeaning[milestone]}.`,
    `Time is counted in whole days from ${clockWords[clock]}. ${clockBias[clock]}`,
    ...wholeDayWords(plan),
    ...(entry === "first_visit"
      ? [`An injury is at risk only from its first visit on (delayed entry: ${sources.delayedEntry}).`]
      : []),
    inexact
      ? `A return that is not known to the day stands at ${inexactRule[inexact_dates]}; how such data are best treated: ${sources.inexact}.`
      : "Every return is known to the day.",
    competing_ends.length === 0
      ? "No end was named as competing with a return."
      : `${capital(listed(competing_ends.map((end) => competingNouns[end])))} ${competing_ends.length === 1 ? "is" : "are"} taken as ${competing_ends.length === 1 ? "an end" : "ends"} after which a return can no longer be seen.`,
    `Intervals are two-sided at ${level(plan.confidence_level)}; they are not widened for the number of figures shown. The main landmark was fixed in the study file.`,
  ];
}
