import { describe, pairedMeanChange, wilson } from "../statistics/index.js";
import { clusteredShare } from "../statistics/proportions/index.js";
import { meanOverPersons, personCodes } from "./change-over-persons.js";
import { baselineOf, completePairs, type DistanceBeforeAfter, readingsOf } from "./distance-pairs.js";
import { estimateOf } from "./estimates.js";
import type { ExactResults } from "./exact-results.js";
import type { Grouping, Members } from "./groups.js";
import type { Estimate } from "./results-parts.js";
import type { Specification } from "./specification.js";

type Distances = NonNullable<ExactResults["distances"]>;

/** Pairs of a group that are kept one by one: enough to see how they spread, few enough to draw. */
const pairsKept = 200;

/** Thresholds that are set beside the study's own: the literature spreads this far, so one finger's class depends on it. */
const thresholdsBeside = [2, 2.5, 3];

/** The distances of the pulley and position asked for, before and after, by compared group. */
export function distancesOf(
  { groups }: Grouping,
  { distance, level }: Pick<Specification, "distance" | "level">,
): Distances {
  const records = groups.flatMap((group) => group.records);
  const baselines = records.flatMap((record) => {
    const pair = baselineOf(record, distance);
    return pair === undefined ? [] : [{ person: record.person, mm: pair.baselineMm }];
  });
  const measured = groups.map((group) => ({ group, pairs: completePairs(group.records, distance) }));
  return {
    pulley: distance.pulley,
    position: distance.position,
    threshold_mm: distance.thresholdMm,
    injuries_with_baseline: baselines.length,
    injuries_read_late:
      records.filter((record) => readingsOf(record, distance) !== undefined).length - baselines.length,
    injuries_with_both: measured.reduce((sum, { pairs }) => sum + pairs.length, 0),
    groups: measured.map(({ group, pairs }) => groupOf({ group, pairs }, level)),
    pairs: measured.flatMap(({ group, pairs }) =>
      evenly(
        pairs
          .map(({ beforeMm, afterMm }) => ({ group: group.label, before_mm: beforeMm, after_mm: afterMm }))
          // in order of size, so that nothing tells whose they are
          .sort((a, b) => a.before_mm - b.before_mm || a.after_mm - b.after_mm),
      ),
    ),
    thresholds: thresholdsOf(baselines, { own: distance.thresholdMm, level }),
  };
}

/** At most so many of a list, at even distances, the first and the last among them. */
function evenly<Item>(items: readonly Item[]): readonly Item[] {
  if (items.length <= pairsKept) return items;
  return Array.from(
    { length: pairsKept },
    (_, i) => items[Math.round((i * (items.length - 1)) / (pairsKept - 1))]!,
  );
}

function groupOf(
  { group, pairs }: { readonly group: Members; readonly pairs: readonly DistanceBeforeAfter[] },
  level: number,
): Distances["groups"][number] {
  const before = describe(pairs.map(({ beforeMm }) => beforeMm));
  const after = describe(pairs.map(({ afterMm }) => afterMm));
  return {
    label: group.label,
    n: pairs.length,
    before_mean: before.mean,
    before_standard_deviation: before.standardDeviation,
    after_mean: after.mean,
    after_standard_deviation: after.standardDeviation,
    change: meanChange(pairs, level),
    median_days_between: describe(pairs.map(({ daysBetween }) => daysBetween)).median,
  };
}

/** Mean change; where a person has several fingers here, with an interval over persons. */
function meanChange(pairs: readonly DistanceBeforeAfter[], level: number): Estimate {
  const before = pairs.map(({ beforeMm }) => beforeMm);
  const after = pairs.map(({ afterMm }) => afterMm);
  const clusters = personCodes(pairs);
  if (clusters !== undefined) {
    const changes = after.map((mm, i) => mm - before[i]!);
    return meanOverPersons(changes, { clusters, level }).estimate;
  }
  const { difference, lower, upper, reason } = pairedMeanChange({ before, after }, { level });
  return estimateOf({ value: difference, lower, upper, reason });
}

function thresholdsOf(
  baselines: readonly { readonly person: string; readonly mm: number }[],
  { own, level }: { readonly own: number; readonly level: number },
): Distances["thresholds"] {
  const clusters = personCodes(baselines);
  const thresholds = [...new Set([...thresholdsBeside, own])].sort((a, b) => a - b);
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
