import { isCompeting, type OutcomeRecord } from "../cohort/record.js";
import { type Curve, incidenceCurve, type StandardisedCurves, shareAt } from "../statistics/index.js";
import { columnsOf } from "./columns.js";
import { estimateOf } from "./estimates.js";
import type { ExactCurve, ExactFamily, ExactPoint } from "./exact-results.js";
import type { Group } from "./groups.js";
import { meanHangsOnFew, withoutLimits } from "./mean-time.js";
import type { Pair } from "./pairs.js";
import { firstDayBack, sharesAsked } from "./quantiles-of-points.js";
import { adjustedSpansFamily } from "./spans/family.js";
import type { Specification } from "./specification.js";
import { startOfCurve } from "./start-of-curve.js";

type Asked = Pick<Specification, "comparison" | "landmarks" | "horizonDay" | "level" | "shareBack"> & {
  readonly entry: ExactFamily["entry"];
};

/**
 * The curves of each pair like for like: in every stratum a curve of each group, averaged over the strata at the same mix
 * for both, up to the horizon. One family a pair; none without strata to hold equal, or where the groups do not overlap.
 */
export function standardisedFamilies(pairs: readonly Pair[], asked: Asked): ExactFamily[] {
  const { comparison, entry } = asked;
  return pairs.flatMap(({ compared, reference, standardised, spans }) => {
    if (spans !== null) {
      const { adjusted } = spans;
      return adjusted === null ? [] : adjustedSpansFamily({ compared, reference, adjusted }, asked);
    }
    if (standardised === null || standardised.curves.shares === null) return [];
    const { strata, curves: found, records } = standardised;
    const family: ExactFamily = {
      family: "standardised",
      entry,
      held_equal: [...comparison.strata],
      strata_used: [...strata],
      model: null,
      curves: [
        curveOf({ group: compared, side: 1, records: records.compared, found }, asked),
        curveOf({ group: reference, side: 0, records: records.reference, found }, asked),
      ],
    };
    return [family];
  });
}

interface Side {
  readonly group: Group;
  readonly side: 0 | 1;
  /** The group's injuries in the strata used. */
  readonly records: readonly OutcomeRecord[];
  readonly found: StandardisedCurves;
}

function curveOf({ group, side, records, found }: Side, asked: Asked): ExactCurve {
  const { label } = group;
  // only its counts are used: how many were at risk, back, or ended otherwise by a day
  const { competing, persons } = columnsOf(records, { clustered: false });
  const counts = incidenceCurve(competing);
  const points = pointsOf({ side, found, counts });
  const { estimate: value, standardError, ...mean } = found.restrictedMean!.groups[side];
  const days = estimateOf({ ...mean, value });
  return {
    id: `standardised:${label}`,
    family: "standardised",
    label,
    n: records.length,
    events: records.filter(({ end }) => end === "milestone").length,
    competing: records.filter(({ end }) => isCompeting(end)).length,
    persons: persons(),
    last_day: found.horizon,
    points,
    quantiles: sharesAsked.map((share) => ({ share, days: firstDayBack(points, share) })),
    landmarks: asked.landmarks.map(({ week, day }) =>
      landmarkOf({ week, point: points.find((one) => one.day === day)! }),
    ),
    restricted_mean: {
      horizon_days: found.horizon,
      days: meanHangsOnFew(group, asked) ? withoutLimits(days) : days,
      standard_error: standardError,
    },
    number_at_risk: Array.from({ length: Math.floor(found.horizon / 7) + 1 }, (_, week) => {
      const { atRisk, cumulativeEvents } = shareAt(counts, 7 * week);
      return { day: 7 * week, at_risk: atRisk, events: cumulativeEvents };
    }),
    other_ends: [],
    alone: null,
    falls_early: false,
  };
}

const landmarkOf = ({
  week,
  point,
}: {
  week: number;
  point: ExactPoint;
}): ExactCurve["landmarks"][number] => ({
  week,
  day: point.day,
  at_risk: point.at_risk,
  returned: estimateOf({
    value: point.returned,
    lower: point.returned_lower,
    upper: point.returned_upper,
    reason: point.returned >= 1 ? "all-returned" : "no-events",
  }),
});

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
    competing: competingUntil(counts, 0),
  });
  const later = found.shares!.map(({ time, returned }): ExactPoint => {
    const now = shareAt(counts, time);
    const { estimate, lower, upper, standardError } = returned[side];
    const point = {
      day: time,
      at_risk: now.atRisk,
      events: now.cumulativeEvents - before.cumulativeEvents,
      censored: now.cumulativeCensored - before.cumulativeCensored,
      competing: competingUntil(counts, time) - competingUntil(counts, before.time),
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

const competingUntil = ({ times, competing }: Curve, day: number): number =>
  times.reduce((sum, time, at) => (time <= day ? sum + (competing?.[at] ?? 0) : sum), 0);
