import { isCompeting, type OutcomeRecord } from "../../cohort/record.js";
import { type Treatment, treatments } from "../../schema/terms.js";
import { describe } from "../../statistics/index.js";
import type { ExactResults } from "../exact-results.js";
import type { Members } from "../groups.js";
import { isLost } from "../missing/lost.js";
import type { Specification } from "../specification.js";

type Group = NonNullable<ExactResults["target_trial"]>["groups"][number];

/** When the treatment of a group began, what came before it and what followed before the return. */
export function trialGroup(
  { label, records }: Members,
  asked: Pick<Specification, "question" | "horizonDay">,
): Group {
  const days = records.map(({ firstTreatmentDay }) => firstTreatmentDay!);
  const later = days.filter((day) => day > 0).length;
  const before = records.map(({ earlier }) => earlier.treatments);
  const followed = records.map((record) => laterTreatments(record, asked.question.treatmentsOfInterest));
  return {
    label,
    n: records.length,
    began_by_day_0: records.length - later,
    began_later: later,
    median_days: describe(days).median,
    longest_days: days.length === 0 ? null : days.reduce((most, day) => Math.max(most, day)),
    had_another_before: before.filter(isSome).length,
    before: countsOf(before),
    before_not_known: records.filter(({ earlier }) => earlier.treatments.length === 0 && earlier.isNotKnown)
      .length,
    went_on: followed.filter(isSome).length,
    later: countsOf(followed),
    lost: records.filter((record) => isLost(record, asked)).length,
  };
}

const isSome = (list: readonly unknown[]): boolean => list.length > 0;

/** Treatments of interest other than the first that began after it and before the record came to its end. */
function laterTreatments(record: OutcomeRecord, ofInterest: readonly Treatment[]): readonly Treatment[] {
  const { episodes, firstTreatment, firstTreatmentDay, time, end } = record;
  // an operation that is itself the end is told of as such an end
  const last = isCompeting(end) ? time - 1 : time;
  const begun = episodes.filter(
    ({ treatment, from }) =>
      treatment !== "not_stated" &&
      ofInterest.includes(treatment) &&
      treatment !== firstTreatment &&
      from > firstTreatmentDay! &&
      from <= last,
  );
  return treatments.filter((one) => begun.some(({ treatment }) => treatment === one));
}

/** How many lists hold each treatment, in the order of the terms. */
const countsOf = (lists: readonly (readonly Treatment[])[]): Group["before"] =>
  treatments
    .map((code) => ({ code, n: lists.filter((list) => list.includes(code)).length }))
    .filter(({ n }) => n > 0);
