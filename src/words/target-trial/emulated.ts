import { counted } from "../../schema/counted.js";
import { labelOf } from "../../schema/labels.js";
import type { Results, TrialPart } from "../../study/results.js";
import { adjustmentClause } from "../adjustment.js";
import { isKeptApart } from "../definitions.js";
import { firstTreatmentRule } from "../first-treatment.js";
import { groupWords } from "../group-phrases.js";
import { capital, eitherOf, listed } from "../phrases.js";
import { endsCountAsNotBack, supposition } from "../share-back.js";
import { clockWords, competingPast, milestoneWords } from "../terms.js";
import { weeks } from "../times.js";
import { whoWords } from "./who.js";

type Trial = NonNullable<Results["target_trial"]>;

const among = (label: string): string => groupWords({ by: "first_treatment", label }).among;

/** What this study does in the place of each part of a trial, from its question and its counts. */
export const emulated: Readonly<Record<TrialPart, (results: Results, trial: Trial) => string>> = {
  eligible: ({ accounting: { analysis }, plan }) =>
    `${capital(whoWords(plan.who))}: ${analysis.analysed} of the ${counted(analysis.injuries, "injury", "injuries")} in the tables can be analysed, in ${counted(analysis.persons, "person", "people")}.`,
  treatments: ({ accounting: { comparison }, plan }, { groups }) => {
    const { question, compare } = plan;
    const others = comparison.left_out.flatMap(({ code, n }) => {
      const name = /^not-compared: (.*)$/s.exec(code)?.[1];
      return name === undefined ? [] : [`${n} ${among(name)}`];
    });
    return (
      `${listed(groups.map(({ label, n }) => `${n} first treated ${among(label)}`))}. The first treatment is ${firstTreatmentRule(question.first_treatment, compare.groups)}.` +
      (others.length === 0 ? "" : ` Not compared: ${listed(others)}.`)
    );
  },
  assignment: (_, { groups }) =>
    `By the treatment that was begun, on the day it was begun: by day 0 in ${listed(groups.map(({ label, n, began_by_day_0: begun }) => `${begun === 0 ? "none" : begun} of ${n} ${among(label)}`))}.`,
  day_0: ({ plan }) =>
    plan.question.clock === "treatment_start"
      ? "The start of the first treatment: assignment and day 0 are one day."
      : `${clockWords[plan.question.clock].replace(/^the/, "The")}. An injury is counted from the start of its treatment on.`,
  outcome: ({ plan, follow_up }) => {
    const { name, state } = milestoneWords[plan.question.milestone];
    return `The first day of ${name}: that ${state}. Seen in ${follow_up.milestones} of ${follow_up.n} analysed injuries.`;
  },
  follow_up: ({ follow_up, plan }) => {
    const { competing_ends: ends } = plan.question;
    const other = ends.length === 0 ? "" : `, or until somebody ${eitherOf(ends.map(competingPast))}`;
    const closed =
      plan.data.closed_on === undefined ? "" : ` or the data were closed (${plan.data.closed_on})`;
    return `Until the return${other}, or the last contact${closed}; ${follow_up.censored} of ${follow_up.n} were not back at the last contact. Mean times count up to ${weeks(plan.horizon_weeks)}.`;
  },
  contrast: (results, { groups }) => {
    const { plan } = results;
    const { reference } = plan.compare;
    const others = groups.filter(({ label }) => label !== reference);
    const supposed = supposition(plan.question);
    const ends = plan.question.competing_ends;
    const counting =
      supposed !== null
        ? ` ${supposed}.`
        : ends.length > 0
          ? ` Counted so that ${endsCountAsNotBack(ends)}.`
          : "";
    return `Share back by ${weeks(plan.main_landmark_weeks)} ${listed(others.map(({ label }) => among(label)))}, less that ${among(reference)}, by the treatment begun first, whatever came later${isKeptApart(results) ? ", within each definition of the return" : ""}.${counting}`;
  },
  analysis: ({ effects, plan, known_returns }) => {
    const main = effects.filter(({ measure, main }) => measure === "landmark_difference" && main);
    const held = main.filter(({ adjusted_for }) => adjusted_for.length > 0);
    const model =
      known_returns.path === "spans" ? "an accelerated model of the spans" : "curves of the groups";
    if (held.length === 0) return `By ${model}, as the groups are.`;
    const told = held.map(({ n, strata_used, adjusted_for, compared }) => {
      const used = `${n.compared} and ${n.reference} injuries`;
      const strata = strata_used.length === 0 ? "" : ` in ${listed(strata_used)}`;
      const which = held.length > 1 ? ` ${among(compared)}` : "";
      return `${adjustmentClause(adjusted_for)}${which}, from ${used}${strata}`;
    });
    const fields = plan.compare.adjust_for.map(labelOf);
    return `By ${model}: ${told.join("; ")}${fields.length === 0 ? "" : ", averaged over both groups together"}. The crude difference is given beside it.`;
  },
};
