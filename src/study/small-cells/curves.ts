import type { ExactCurve, ExactPoint } from "../exact-results.js";
import { firstDayBack } from "../quantiles-of-points.js";
import type { CurvePoint, CurveResult, Estimate } from "../results.js";
import { smallCell } from "../results-parts.js";
import { startOfCurve } from "../start-of-curve.js";
import { type Mark, marksApart } from "./chain.js";
import { type Counting, leftOut } from "./counting.js";

/**
 * A curve whose steps lie at landmarks and whole weeks, in each of which either nobody was back or enough were, and
 * which ends where too few are still followed; null where nothing of it may be told.
 *
 * @param curve as it was computed
 * @param options mainWeek: the landmark that is kept before all others; counting: how counts are told
 */
export function coarseCurve(
  curve: ExactCurve,
  options: { readonly mainWeek: number; readonly counting: Counting },
): CurveResult | null {
  const { counting } = options;
  counting.note(curve.points.filter(({ events }) => !counting.isEnough(events)).length);
  const { n, persons, events, competing, restricted_mean } = curve;
  const days = stepDays(curve, options);
  const counts = {
    n: counting.told(n),
    persons: counting.part(persons, n),
    events: counting.part(events, n),
    competing: counting.told(competing),
  };
  if (n === 0 || !counting.isEnough(n) || days.length === 0 || curve.points.length === 0) return null;
  const points = pointsAt(days, curve, counting);
  const share = (estimate: Estimate) => counting.roundedEstimate(estimate, { shareOf: n });
  const { at: last } = days.at(-1)!;
  // where too few are followed, the day after which nobody is would be told of by a nought
  const followed = (atRisk: number, day: number) =>
    atRisk === 0 && day > last ? smallCell : counting.told(atRisk);
  const enough = events > 0 && counting.isEnough(events);
  return {
    ...curve,
    ...counts,
    coarse: true,
    last_day: last,
    points,
    quantiles: curve.quantiles.map(({ share, days: exact }) => ({
      share,
      days: readOff(exact, { points, share }),
    })),
    landmarks: curve.landmarks.map((landmark) => {
      const { day, at_risk, returned } = landmark;
      const isStep = days.some(({ at }) => at === day);
      return {
        ...landmark,
        at_risk: followed(at_risk, day),
        returned: isStep ? share(returned) : leftOut(returned),
      };
    }),
    // with the share back they would tell of the few of each kind
    other_ends: [],
    // its days are those of single visits
    alone: null,
    restricted_mean: {
      ...restricted_mean,
      days: enough ? counting.roundedEstimate(restricted_mean.days, "week") : leftOut(restricted_mean.days),
      standard_error: null,
    },
    number_at_risk: curve.number_at_risk.map(({ day, at_risk, events: so_far }) => ({
      day,
      at_risk: followed(at_risk, day),
      events: day === 0 || days.some(({ at }) => at === day) ? counting.told(so_far) : smallCell,
    })),
  };
}

/** A time by which a share was back, read off the coarse curve. */
function readOff(
  exact: Estimate,
  { points, share }: { readonly points: readonly CurvePoint[]; readonly share: number },
): Estimate {
  const read = firstDayBack(points, share);
  if (read.value === null) return leftOut(exact);
  return { ...read, reason: read.reason === null ? null : (exact.reason ?? "small-cell") };
}

/** The days at which the curve steps: the main landmark before the other landmarks, and these before whole weeks. */
function stepDays(
  curve: ExactCurve,
  { mainWeek, counting }: { readonly mainWeek: number; readonly counting: Counting },
): readonly Mark[] {
  const main = curve.landmarks.filter(({ week }) => week === mainWeek).map(({ day }) => day);
  const landmarks = curve.landmarks.map(({ day }) => day).sort((one, other) => one - other);
  const weeks = Array.from({ length: Math.floor(curve.last_day / 7) }, (_, week) => 7 * (week + 1));
  const wanted = [...main, ...landmarks, ...weeks]
    .filter((day) => day > 0 && day <= curve.last_day)
    .map((day) => ({ at: day, counted: eventsUntil(curve.points, day) }))
    .filter(({ at, counted }) => {
      const atRisk = atRiskOn(curve, at);
      return counted === curve.n || (atRisk > 0 && counting.isEnough(atRisk));
    });
  return marksApart(wanted, { whole: curve.n, isEnough: counting.isEnough });
}

function pointsAt(days: readonly Mark[], curve: ExactCurve, counting: Counting): CurvePoint[] {
  const start: CurvePoint = startOfCurve({
    at_risk: counting.told(atRiskOn(curve, 0)),
    events: 0,
    censored: 0,
    competing: 0,
  });
  const steps = days.map(({ at: day, counted }, i): CurvePoint => {
    const before = days[i - 1] ?? { at: -1, counted: 0 };
    const point = curve.points.findLast((one) => one.day <= day)!;
    const { value, lower, upper } = counting.roundedEstimate(
      { value: point.returned, lower: point.returned_lower, upper: point.returned_upper, reason: null },
      { shareOf: curve.n },
    );
    const returned = value ?? 0;
    const between = (kind: "censored" | "competing") =>
      endsUntil(curve.points, { day, kind }) - endsUntil(curve.points, { day: before.at, kind });
    return {
      day,
      at_risk: counting.told(atRiskOn(curve, day)),
      events: counting.told(counted - before.counted),
      censored: counting.told(between("censored")),
      competing: counting.told(between("competing")),
      not_yet: Math.round(100 * (1 - returned)) / 100,
      returned,
      standard_error: null,
      returned_lower: lower,
      returned_upper: upper,
    };
  });
  return [start, ...steps];
}

const until = (points: readonly ExactPoint[], day: number) => points.filter((point) => point.day <= day);
const eventsUntil = (points: readonly ExactPoint[], day: number): number =>
  until(points, day).reduce((sum, { events }) => sum + events, 0);
const endsUntil = (
  points: readonly ExactPoint[],
  { day, kind }: { readonly day: number; readonly kind: "censored" | "competing" },
): number => until(points, day).reduce((sum, point) => sum + point[kind], 0);

/** Injuries at risk on a day: as they are told for it, else those of the next day on which something happened. */
const atRiskOn = ({ landmarks, number_at_risk, points }: ExactCurve, day: number): number =>
  [...landmarks, ...number_at_risk].find((one) => one.day === day)?.at_risk ??
  points.find((point) => point.day >= day)?.at_risk ??
  0;
