import type { Question } from "../cohort/question.js";
import * as terms from "../schema/terms.js";
import type { Plan } from "./plan.js";

/** Treatments that count as a first treatment even when a plan does not compare them. */
const alwaysOfInterest: readonly terms.Treatment[] = ["tape", "ring", "surgery"];

/** What the plan asks of each injury. */
export function questionOf({ question, compare, sites, data }: Plan): Question {
  const named = compare.by === "first_treatment" ? compare.groups : [];
  return {
    milestone: question.milestone,
    clock: question.clock,
    entry: question.entry,
    inexactDates: question.inexact_dates,
    competingEnds: question.competing_ends,
    treatmentsOfInterest: terms.treatments.filter(
      (treatment) => alwaysOfInterest.includes(treatment) || named.includes(treatment),
    ),
    sites: sites ?? null,
    closedOn: data.closed_on ?? null,
  };
}
