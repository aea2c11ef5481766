import { underOtherTreatments } from "../../cohort/derive.js";
import type { LinkedInjury, OutcomeRecord } from "../../cohort/record.js";
import type { ExactResults } from "../exact-results.js";
import { compared, type Grouping, type Settled } from "../groups.js";
import { landmarkDifference } from "../measures/landmark-difference.js";
import { pairsOf } from "../pairs.js";
import { type FirstTreatmentRule, firstTreatments, type Plan } from "../plan.js";
import { treatmentsOfInterest } from "../question-of.js";

type Reading = NonNullable<ExactResults["target_trial"]>["other_readings"][number];

interface Asked {
  readonly plan: Plan;
  readonly specification: Settled;
  /** Whether one figure may be given for all sites together. */
  readonly isPooled: boolean;
}

/** The injuries, and the records of those that are analysed. */
interface Cohort {
  readonly linked: readonly LinkedInjury[];
  readonly analysed: readonly OutcomeRecord[];
}

/** The comparison under each other rule of which treatment is the first; none where it puts the same injuries into the same groups. */
export function otherReadings(
  cohort: Cohort,
  { groups, asked }: { readonly groups: Grouping; readonly asked: Asked },
): Reading[] {
  const own = membersOf(groups);
  const isTold = (others: string, earlier: readonly string[]) => others !== own && !earlier.includes(others);
  const seen: string[] = [];
  return firstTreatments
    .filter((rule) => rule !== asked.plan.question.first_treatment)
    .flatMap((rule) => {
      const other = groupsUnder(rule, { ...cohort, asked });
      const members = membersOf(other);
      if (!isTold(members, seen)) return [];
      seen.push(members);
      return [readingOf(rule, { groups: other, asked })];
    });
}

/** Who is in which group, from which day on. */
const membersOf = ({ groups }: Grouping): string =>
  JSON.stringify(
    groups.map(({ label, records }) => [label, records.map(({ injury, entry }) => [injury, entry])]),
  );

function groupsUnder(
  rule: FirstTreatmentRule,
  { linked, analysed, asked }: Cohort & { readonly asked: Asked },
): Grouping {
  const { plan, specification } = asked;
  const question = {
    ...specification.question,
    treatmentsOfInterest: treatmentsOfInterest(rule, plan.compare),
  };
  const own = new Map(analysed.map((record) => [record.injury, record]));
  // of an injury a rule changes nothing but what follows from its first treatment
  const records = linked.flatMap((injury): readonly OutcomeRecord[] => {
    const record = underOtherTreatments(own.get(injury.injury.values.injury_id), {
      linked: injury,
      asked: specification.question,
      other: question,
    });
    return record === null ? [] : [record];
  });
  return compared(records, { ...specification, question });
}

function readingOf(
  first_treatment: FirstTreatmentRule,
  { groups, asked }: { readonly groups: Grouping; readonly asked: Asked },
): Reading {
  const { isPooled, specification } = asked;
  const pairs = isPooled ? pairsOf(groups, specification) : [];
  return {
    first_treatment,
    groups: groups.groups.map(({ label, records }) => ({ label, n: records.length })),
    differences: pairs.flatMap((pair) => {
      const { crude, adjusted } = landmarkDifference.estimate(pair, specification);
      const held = adjusted.find(({ main }) => main);
      const main = held !== undefined && held.estimate.value !== null ? held : crude.find((one) => one.main);
      if (main === undefined) return [];
      const { compared: own, reference: base } = main.sides ?? {
        compared: pair.compared.records,
        reference: pair.reference.records,
      };
      return [
        {
          compared: pair.compared.label,
          reference: pair.reference.label,
          adjusted_for: main === held ? [...held.adjusted_for] : [],
          n: { compared: own.length, reference: base.length },
          returned: main.estimate,
        },
      ];
    }),
  };
}
