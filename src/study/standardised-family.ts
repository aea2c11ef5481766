import type { OutcomeRecord } from "../cohort/record.js";
import {
  type Curve,
  productLimit,
  type StandardisedCurves,
  shareAt,
  standardisedCurves,
} from "../statistics/index.js";
import { estimateOf, missing } from "./estimates.js";
import type { ExactCurve, ExactFamily, ExactPoint } from "./exact-results.js";
import { type Grouping, personsAmong, timeToEventOf } from "./groups.js";
import { type Pair, pairsOf } from "./pairs.js";
import type { Plan } from "./plan.js";
import { firstDayBack, sharesAsked } from "./quantiles-of-points.js";
import { daysOf } from "./question-of.js";
import { startOfCurve } from "./start-of-curve.js";
import { adjustersOf, strataOf } from "./strata.js";

/** Days of the curve between which nothing is drawn: one each day while there are few, else evenly spaced. */
const mostDays = 91;

/**
 * The curves of each pair like for like: in every stratum a curve of each group, averaged over the strata at the same mix
 * for both, up to the horizon. One family a pair; none without strata to hold equal, or where the groups do not overlap.
 */
export function standardisedFamilies(comparison: Grouping, plan: Plan): ExactFamily[] {
  const fields = adjustersOf(plan).strata;
  if (fields.length === 0) return [];
  return pairsOf(comparison, plan).flatMap((pair) => {
    const { codes, labels } = strataOf(pair.records, fields);
    const days = daysOfCurve(pair, plan);
    const found = standardisedCurves(
      { ...timeToEventOf(pair.records, pair.clustered), groups: pair.isCompared, strata: codes },
      {
        times: days,
        horizon: daysOf(plan.horizon_weeks),
        smallest: plan.compare.smallest_group,
        level: plan.confidence_level,
      },
    );
    if (found.shares === null) return [];
    const used = new Set(found.used.map(({ stratum }) => stratum));
    const rowsOf = (side: 0 | 1) =>
      pair.records.filter((_, row) => pair.isCompared[row] === side && used.has(codes[row]!));
    const family: ExactFamily = {
      family: "standardised",
      entry: comparison.entry,
      held_equal: [...fields],
      strata_used: found.used.map(({ stratum }) => labels[stratum]!),
      curves: [
        curveOf({ label: pair.compared.label, side: 1, records: rowsOf(1), found }, plan),
        curveOf({ label: pair.reference.label, side: 0, records: rowsOf(0), found }, plan),
      ],
    };
    return [family];
  });
}

/** Days on which somebody of the pair was back, thinned evenly where there are many; the landmarks are always among them. */
function daysOfCurve({ records }: Pair, plan: Plan): number[] {
  const horizon = daysOf(plan.horizon_weeks);
  const back = new Set(
    records.flatMap(({ end, time }) => (end === "milestone" && time <= horizon ? [time] : [])),
  );
  const every = Math.ceil(back.size / mostDays);
  const grid =
    every <= 1 ? [...back] : Array.from({ length: Math.floor(horizon / every) }, (_, at) => (at + 1) * every);
  return [...new Set([...grid, ...plan.landmarks_weeks.map(daysOf)])].sort((a, b) => a - b);
}

interface Side {
  readonly label: string;
  readonly side: 0 | 1;
  /** The group's injuries in the strata used. */
  readonly records: readonly OutcomeRecord[];
  readonly found: StandardisedCurves;
}

function curveOf({ label, side, records, found }: Side, plan: Plan): ExactCurve {
  // only its counts are used: how many were at risk, back or lost to follow-up by a day
  const counts = productLimit(timeToEventOf(records, false));
  const points = pointsOf({ side, found, counts });
  const mean = found.restrictedMean!.groups[side];
  return {
    id: `standardised:${label}`,
    family: "standardised",
    label,
    n: records.length,
    events: records.filter(({ end }) => end === "milestone").length,
    competing: records.filter(({ end }) => end !== "milestone" && end !== "censored").length,
    persons: personsAmong(records),
    last_day: found.horizon,
    points,
    quantiles: sharesAsked.map((share) => ({ share, days: firstDayBack(points, share) })),
    landmarks: plan.landmarks_weeks.map((week) => {
      const point = points.find(({ day }) => day === daysOf(week))!;
      return {
        week,
        day: point.day,
        at_risk: point.at_risk,
        returned: estimateOf({
          value: point.returned,
          lower: point.returned_lower,
          upper: point.returned_upper,
          reason: point.returned >= 1 ? "all-returned" : "no-events",
        }),
        returned_beside_competing: missing("not-computed"),
      };
    }),
    restricted_mean: {
      horizon_days: found.horizon,
      days: estimateOf({ value: mean.estimate, lower: mean.lower, upper: mean.upper, reason: "no-variance" }),
      standard_error: mean.standardError,
    },
    number_at_risk: Array.from({ length: Math.floor(plan.horizon_weeks) + 1 }, (_, week) => {
      const { atRisk, cumulativeEvents } = shareAt(counts, daysOf(week));
      return { day: daysOf(week), at_risk: atRisk, events: cumulativeEvents };
    }),
    falls_early: false,
  };
}

/** A point at day 0 and one each day asked for; events and ends of follow-up are those since the point before. */
function pointsOf({
  side,
  found,
  counts,
}: Pick<Side, "side" | "found"> & { readonly counts: Curve }): ExactPoint[] {
  let before = shareAt(counts, 0);
  const start: ExactPoint = startOfCurve({
    at_risk: before.atRisk,
    events: before.cumulativeEvents,
    censored: before.cumulativeCensored,
  });
  const later = found.shares!.map(({ time, returned }): ExactPoint => {
    const now = shareAt(counts, time);
    const { estimate, lower, upper, standardError } = returned[side];
    const point = {
      day: time,
      at_risk: now.atRisk,
      events: now.cumulativeEvents - before.cumulativeEvents,
      censored: now.cumulativeCensored - before.cumulativeCensored,
      not_yet: 1 - estimate,
      returned: estimate,
      standard_error: standardError,
      // a share lies between none and all, and so does its interval
      returned_lower: lower === null ? null : Math.max(0, lower),
      returned_upper: upper === null ? null : Math.min(1, upper),
    };
    before = now;
    return point;
  });
  return later[0]?.day === 0 ? later : [start, ...later];
}
