import type { Plan } from "../../study/plan.js";
import type { Results } from "../../study/results.js";
import { roundedTimes } from "../../study/specification.js";
import { isSome } from "../../words/counts.js";
import { pathWords } from "../../words/known-returns.js";
import { level } from "../../words/numbers.js";
import { personIdWords } from "../../words/person-ids.js";
import { capital, listed } from "../../words/phrases.js";
import { sources } from "../../words/sources.js";
import {
  clockWords,
  competingNoun,
  entryWords,
  inexactDateRules,
  milestoneWords,
} from "../../words/terms.js";
import { weeks } from "../../words/times.js";

type Question = Plan["question"];

const clockBias: Readonly<Record<Question["clock"], string>> = {
  injury:
    "Time before the first visit counts, although an injury with a return before it could not have entered the data.",
  first_visit: "Groups that came to the first visit later look faster by the delay.",
  treatment_start: "Groups whose treatment began later look faster by the delay.",
};

/** The horizon and landmarks that the study file writes with part of a day, as they are counted. */
function wholeDayWords(plan: Plan): string[] {
  const times = roundedTimes(plan).map(
    ({ weeks: written, days: whole }) => `${weeks(written)} as day ${whole}`,
  );
  if (times.length === 0) return [];
  return [`Times of the study file are counted in whole days, each as the nearest: ${listed(times)}.`];
}

/** How sites' own definitions were compared, where they differ. */
function definitionMethods(definitions: Results["definitions"]): string[] {
  if (definitions === null) return [];
  const compared =
    "Sites state what they mean by it; these definitions were compared letter case, spaces and punctuation apart, and a site without one counts as not stated. They differ.";
  return [
    definitions.pooled
      ? `${compared} The study file says that they may be counted together; each definition also has a curve of its own.`
      : `${compared} Shares and differences are therefore estimated for each definition by itself.`,
  ];
}

/** What was asked: milestone, clock, entry, inexact dates, competing ends, level. */
export function questionMethods({
  accounting,
  definitions,
  plan,
  follow_up,
  known_returns,
}: Results): string[] {
  const { milestone, clock, entry, inexact_dates, competing_ends } = plan.question;
  const inexact = follow_up.known.some(
    ({ code, n }) => code !== "day" && code !== "not_reached" && isSome(n),
  );
  return [
    `A cohort study: injuries are followed from ${clockWords[clock]} to the return, another end or the last contact. Whether it was planned before the data were collected is not in the data.`,
    `The milestone is ${milestoneWords[milestone].meaning}.`,
    ...definitionMethods(definitions),
    ...(accounting.analysis.ids_at_several_sites === undefined
      ? []
      : [
          `${capital(personIdWords(plan.data.person_ids))}. Intervals allow for several injuries of one person.`,
        ]),
    `Time is counted in whole days from ${clockWords[clock]}. ${clockBias[clock]}`,
    ...wholeDayWords(plan),
    ...(entry === "first_visit" ? [`${entryWords.first_visit} Delayed entry: ${sources.delayedEntry}.`] : []),
    inexact && known_returns.path === "spans"
      ? `${pathWords(known_returns)} Widths of spans between groups: rank test (${sources.spanWidths}). What is counted on single days (other ends than a return, states after the return over time, who was lost) takes each return on ${inexactDateRules[inexact_dates]}.`
      : inexact
        ? `${pathWords(known_returns)} A return that is not known to the day is placed on ${inexactDateRules[inexact_dates]}; how such data are best treated: ${sources.inexact}.`
        : "Every return is known to the day.",
    ...(plan.question.treatment_without_start === "from_injury"
      ? [
          "A first treatment whose start is not recorded is taken to start with the injury; the time before its true start is then counted in its favour.",
        ]
      : []),
    competing_ends.length === 0
      ? "The study file names no end that competes with a return."
      : `${capital(listed(competing_ends.map(competingNoun)))} ${competing_ends.length === 1 ? "is" : "are"} taken as ${competing_ends.length === 1 ? "a competing end" : "competing ends"}, after which no return can follow.`,
    `Intervals are two-sided at ${level(plan.confidence_level)}; they are not adjusted for the number of estimates shown. The main landmark was fixed in the study file.`,
  ];
}
