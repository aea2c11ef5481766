import type { OtherReading, Results } from "../../study/results.js";
import { adjustmentClause } from "../../words/adjustment.js";
import { isSome } from "../../words/counts.js";
import { firstTreatmentRule, underRule } from "../../words/first-treatment.js";
import { type GroupWords, groupWords } from "../../words/group-phrases.js";
import { listed } from "../../words/phrases.js";
import { groupName } from "../../words/terms.js";
import { supposedShares } from "./differences.js";

/**
 * What came before the treatment that counts as the first, so that "first treated" is not taken for the first of all; and the main
 * figure under each other rule that would put other injuries into the groups. Nothing where nothing came before.
 */
export function firstTreatmentSentences({ target_trial: trial, plan }: Results): string[] {
  if (trial === null) return [];
  const { groups, other_readings: readings } = trial;
  const earlier = groups.filter(({ had_another_before: n }) => isSome(n));
  const told = earlier.map(
    ({ label, n, had_another_before, before }) =>
      `${had_another_before} of ${n} ${amongOf(label)} (${listed(before.map(({ code }) => groupName(code, "first_treatment")))})`,
  );
  const rule = firstTreatmentRule(plan.question.first_treatment, plan.compare.groups);
  return [
    ...(told.length === 0
      ? []
      : [`The first treatment is ${rule}: another treatment had been begun before it in ${listed(told)}.`]),
    ...readings.map((reading) => readingSentence(reading, plan)),
  ];
}

const wordsOf = (label: string): GroupWords => groupWords({ by: "first_treatment", label });
const amongOf = (label: string): string => wordsOf(label).among;

function readingSentence(
  { first_treatment, groups, differences }: OtherReading,
  plan: Results["plan"],
): string {
  const compared = listed(groups.map(({ label, n }) => `${n} ${amongOf(label)}`));
  const start = `${underRule[first_treatment](plan.compare.groups)}, ${compared} would be compared`;
  const told = differences.map(({ compared: one, reference, adjusted_for, returned }) => {
    const pair = { compared: wordsOf(one), reference: wordsOf(reference), plan };
    return `${adjustmentClause(adjusted_for)}, ${supposedShares({ estimate: returned, level: plan.confidence_level }, pair)}`;
  });
  return `${[start, ...told].join("; ")}.`;
}
