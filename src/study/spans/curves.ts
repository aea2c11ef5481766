import type { VisitShare } from "../../statistics/survival/between-visits/index.js";
import { estimateOf, missing } from "../estimates.js";
import type { ExactCurve, ExactPoint } from "../exact-results.js";
import type { Group } from "../groups.js";
import { meanHangsOnFew, withoutLimits } from "../mean-time.js";
import { sharesAsked } from "../quantiles-of-points.js";
import type { Estimate } from "../results-parts.js";
import type { Specification } from "../specification.js";
import { startOfCurve } from "../start-of-curve.js";
import { aloneOf } from "./alone.js";
import { type KnownCounts, knownCounts } from "./known-counts.js";
import { estimateOfVisits, type ModelledGroup } from "./model.js";

type Asked = Pick<Specification, "landmarks" | "horizonDay" | "level" | "shareBack">;

/** The parts of a curve that rest on when the returns came. */
type FromSpans = Pick<
  ExactCurve,
  "points" | "quantiles" | "landmarks" | "restricted_mean" | "number_at_risk" | "alone"
>;

/**
 * A curve by the model of spans: shares with limits on whole weeks and at the landmarks, the days by which shares are back read off between
 * them, the restricted mean, what the data alone say, and how many are known to be at risk or back.
 *
 * @param group its records, its figures under the model, and those by days, which say whether a mean hangs on few
 * @param options days: those at which the number at risk is told
 */
export function curveFromSpans(
  group: Group & { readonly modelled: ModelledGroup },
  { days, ...asked }: Asked & { readonly days: readonly number[] },
): FromSpans {
  const { records, modelled: figures } = group;
  const known = knownCounts(records, asked);
  const { horizonDay: horizon_days, landmarks } = asked;
  const common = {
    alone: aloneOf(records, asked),
    number_at_risk: days.map((day) => ({ day, at_risk: known.atRisk(day), events: known.back(day) })),
  };
  if (typeof figures === "string") {
    return {
      ...common,
      points: [],
      quantiles: sharesAsked.map((share) => ({ share, days: missing(figures) })),
      landmarks: landmarks.map(({ week, day }) => ({
        week,
        day,
        at_risk: known.atRisk(day),
        returned: missing(figures),
      })),
      restricted_mean: { horizon_days, days: missing(figures), standard_error: null },
    };
  }
  const { shares, restrictedMean } = figures;
  const points = pointsOf(shares, known);
  const mean = estimateOfVisits(restrictedMean);
  return {
    ...common,
    points,
    quantiles: sharesAsked.map((share) => ({ share, days: dayOfShare(shares, share) })),
    landmarks: landmarks.map(({ week, day }) => ({
      week,
      day,
      at_risk: known.atRisk(day),
      returned: estimateOfVisits(shares.find(({ time }) => time === day)!),
    })),
    restricted_mean: {
      horizon_days,
      days: meanHangsOnFew(group, asked) ? withoutLimits(mean) : mean,
      standard_error: restrictedMean.standardError,
    },
  };
}

/** Where the model speaks; returns and ends of follow-up are those known since the point before. */
function pointsOf(shares: readonly VisitShare[], known: KnownCounts): ExactPoint[] {
  const none = { back: 0, censored: 0, competing: 0 };
  const start: ExactPoint = startOfCurve({ at_risk: known.atRisk(0), events: 0, censored: 0, competing: 0 });
  let before = none;
  const later = shares.flatMap(({ time: day, estimate, standardError, lower, upper }): ExactPoint[] => {
    if (estimate === null) return [];
    const now = { back: known.back(day), censored: known.censored(day), competing: known.competing(day) };
    const point = {
      day,
      at_risk: known.atRisk(day),
      events: now.back - before.back,
      censored: now.censored - before.censored,
      competing: now.competing - before.competing,
      not_yet: 1 - estimate,
      returned: estimate,
      standard_error: standardError,
      returned_lower: lower,
      returned_upper: upper,
    };
    before = now;
    return [point];
  });
  return [start, ...later];
}

/** The day on which a share is back, between the days at which the model was read; its limits are the days on which its limits come to it. */
export function dayOfShare(shares: readonly VisitShare[], share: number): Estimate {
  const read = [
    { time: 0, estimate: 0, lower: 0, upper: 0 },
    ...shares.filter(({ estimate }) => estimate !== null),
  ];
  const dayWhere = (limit: "estimate" | "lower" | "upper"): number | null => {
    const after = read.findIndex((one) => (one[limit] ?? 0) >= share);
    if (after < 1) return null;
    const [one, other] = [read[after - 1]!, read[after]!];
    const from = one[limit] ?? 0;
    return one.time + ((share - from) / (other[limit]! - from)) * (other.time - one.time);
  };
  return estimateOf({
    value: dayWhere("estimate"),
    lower: dayWhere("upper"),
    upper: dayWhere("lower"),
    reason: "not-reached",
  });
}
