import { type Eligibility, everyInjury } from "../cohort/eligible.js";
import type { Question } from "../cohort/question.js";
import * as terms from "../schema/terms.js";
import type { FirstTreatmentRule, Plan } from "./plan.js";

/** Treatments that count as a first treatment even when a plan does not compare them, unless it says otherwise. */
const alwaysOfInterest: readonly terms.Treatment[] = ["tape", "ring", "surgery"];

/** What the plan asks of each injury. */
export function questionOf({ who, question, compare, data }: Plan): Question {
  return {
    milestone: question.milestone,
    clock: question.clock,
    entry: question.entry,
    inexactDates: question.inexact_dates,
    competingEnds: question.competing_ends,
    treatmentsOfInterest: treatmentsOfInterest(question.first_treatment, compare),
    treatmentWithoutStart: question.treatment_without_start,
    who: eligibilityOf(who),
    closedOn: data.closed_on ?? null,
  };
}

/** The treatments that can be the first one under a rule. */
export function treatmentsOfInterest(
  rule: FirstTreatmentRule,
  { by, groups }: Pick<Plan["compare"], "by" | "groups">,
): readonly terms.Treatment[] {
  const named = by === "first_treatment" ? groups : [];
  const isNamed = (treatment: terms.Treatment) => named.includes(treatment);
  switch (rule) {
    case "of_all":
      return terms.treatments;
    case "of_compared":
      return terms.treatments.filter(isNamed);
    case "rest_aside":
      return terms.treatments.filter(
        (treatment) => alwaysOfInterest.includes(treatment) || isNamed(treatment),
      );
  }
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
