import { type Eligibility, everyInjury } from "../cohort/eligible.js";
import type { Question } from "../cohort/question.js";
import * as terms from "../schema/terms.js";
import type { Plan } from "./plan.js";

/** Treatments that count as a first treatment even when a plan does not compare them. */
const alwaysOfInterest: readonly terms.Treatment[] = ["tape", "ring", "surgery"];

/** What the plan asks of each injury. */
export function questionOf({ who, question, compare, data }: Plan): Question {
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
    treatmentWithoutStart: question.treatment_without_start,
    who: eligibilityOf(who),
    closedOn: data.closed_on ?? null,
  };
}

function eligibilityOf({ first_visit_within_days, ...criteria }: Plan["who"]): Eligibility {
  return {
    ...everyInjury,
    ...withoutUndefined(criteria),
    firstVisitWithinDays: first_visit_within_days ?? null,
  };
}

/** The criteria that are set. */
const withoutUndefined = (criteria: Omit<Plan["who"], "first_visit_within_days">): Partial<Eligibility> =>
  Object.fromEntries(Object.entries(criteria).filter(([, value]) => value !== undefined));
