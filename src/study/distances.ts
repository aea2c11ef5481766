import type { OutcomeRecord } from "../cohort/record.js";
import { describe, pairedMeanChange, wilson } from "../statistics/index.js";
import { clusteredShare } from "../statistics/proportions/index.js";
import { meanOverPersons, personCodes } from "./change-over-persons.js";
import { estimateOf } from "./estimates.js";
import type { ExactResults } from "./exact-results.js";
import type { Group, Grouping } from "./groups.js";
import type { Plan } from "./plan.js";
import type { Estimate } from "./results.js";

/** One injury's distance before and after, mm, and the days between. */
export interface DistanceBeforeAfter {
  readonly person: string;
  readonly beforeMm: number;
  readonly afterMm: number;
  readonly daysBetween: number;
}

/** Pairs of a group that are kept one by one: enough to see how they spread, few enough to draw. */
const pairsKept = 200;

/** Thresholds that are set beside the plan's own: the literature spreads this far, so one finger's class depends on it. */
const thresholdsBeside = [2, 2.5, 3];

/** The distances of the plan's pulley and position, before and after, by compared group. */
export function distancesOf({ groups }: Grouping, plan: Plan): NonNullable<ExactResults["distances"]> {
  const records = groups.flatMap((group) => group.records);
  const baselines = records.flatMap((record) => {
    const pair = asked(record, plan);
    return pair === undefined ? [] : [{ person: record.person, mm: pair.baselineMm }];
  });
  return {
    pulley: plan.distance.pulley,
    position: plan.distance.position,
    threshold_mm: plan.distance.threshold_mm,
    injuries_with_baseline: baselines.length,
    injuries_with_both: completePairs(records, plan).length,
    groups: groups.map((group) => groupOf(group, plan)),
    pairs: groups.flatMap(({ label, records: own }) =>
      evenly(
        completePairs(own, plan)
          .map(({ beforeMm, afterMm }) => ({ group: label, before_mm: beforeMm, after_mm: afterMm }))
          // in order of size, so that nothing tells whose they are
          .sort((a, b) => a.before_mm - b.before_mm || a.after_mm - b.after_mm),
      ),
    ),
    thresholds: thresholdsOf(baselines, plan),
  };
}

/** At most so many of a list, at even distances, the first and the last among them. */
function evenly<Item>(items: readonly Item[]): readonly Item[] {
  if (items.length <= pairsKept) return items;
  return Array.from(
    { length: pairsKept },
    (_, at) => items[Math.round((at * (items.length - 1)) / (pairsKept - 1))]!,
  );
}

/** Injuries with both readings of the plan's distance. */
export function completePairs(records: readonly OutcomeRecord[], plan: Plan): DistanceBeforeAfter[] {
  return records.flatMap((record) => {
    const pair = asked(record, plan);
    if (pair === undefined || pair.followUpMm === null || pair.followUpDay === null) return [];
    return [
      {
        person: record.person,
        beforeMm: pair.baselineMm,
        afterMm: pair.followUpMm,
        daysBetween: pair.followUpDay - pair.baselineDay,
      },
    ];
  });
}

const asked = ({ distances }: OutcomeRecord, { distance }: Plan) =>
  distances.find(({ pulley, position }) => pulley === distance.pulley && position === distance.position);

function groupOf(
  { label, records }: Group,
  plan: Plan,
): NonNullable<ExactResults["distances"]>["groups"][number] {
  const pairs = completePairs(records, plan);
  const before = describe(pairs.map(({ beforeMm }) => beforeMm));
  const after = describe(pairs.map(({ afterMm }) => afterMm));
  return {
    label,
    n: pairs.length,
    before_mean: before.mean,
    before_standard_deviation: before.standardDeviation,
    after_mean: after.mean,
    after_standard_deviation: after.standardDeviation,
    change: meanChange(pairs, plan),
    median_days_between: describe(pairs.map(({ daysBetween }) => daysBetween)).median,
  };
}

/** Mean change; where a person has several fingers here, with an interval over persons. */
function meanChange(pairs: readonly DistanceBeforeAfter[], { confidence_level: level }: Plan): Estimate {
  const before = pairs.map(({ beforeMm }) => beforeMm);
  const after = pairs.map(({ afterMm }) => afterMm);
  const clusters = personCodes(pairs);
  if (clusters !== undefined) {
    const changes = after.map((mm, at) => mm - before[at]!);
    return meanOverPersons(changes, { clusters, level }).estimate;
  }
  const { difference, lower, upper, reason } = pairedMeanChange({ before, after }, { level });
  return estimateOf({ value: difference, lower, upper, reason });
}

function thresholdsOf(
  baselines: readonly { readonly person: string; readonly mm: number }[],
  plan: Plan,
): NonNullable<ExactResults["distances"]>["thresholds"] {
  const { confidence_level: level } = plan;
  const clusters = personCodes(baselines);
  const thresholds = [...new Set([...thresholdsBeside, plan.distance.threshold_mm])].sort((a, b) => a - b);
  return thresholds.map((threshold_mm) => {
    const hits = baselines.map(({ mm }) => (mm > threshold_mm ? 1 : 0));
    const above = hits.filter((hit) => hit === 1).length;
    const share =
      clusters === undefined
        ? wilson(above, hits.length, { level })
        : clusteredShare({ hits, clusters }, { level });
    return {
      threshold_mm,
      n: baselines.length,
      above,
      share_above: estimateOf({
        value: share.estimate,
        lower: share.lower,
        upper: share.upper,
        reason: share.reason,
      }),
    };
  });
}
