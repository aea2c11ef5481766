import type { ExactCurve } from "../../../src/study/exact-results.js";
import { type Plan, planSchema } from "../../../src/study/plan.js";
import type { CurveFamily, Estimate } from "../../../src/study/results.js";

/** SYNTHETIC results, invented for the tests of the drawings; their numbers stand for nothing. */
export const inventedPlan = (parts: Record<string, unknown> = {}): Plan =>
  planSchema.parse({ study: "invented", title: "Invented", synthetic: true, data: {}, ...parts });

const missing = (reason: NonNullable<Estimate["reason"]>): Estimate => ({
  value: null,
  lower: null,
  upper: null,
  reason,
});

/** Times spread evenly over a range, every `censorEvery`-th the end of a follow-up. */
export interface InventedGroup {
  readonly label: string;
  readonly n: number;
  readonly from: number;
  readonly to: number;
  readonly censorEvery: number;
  readonly lastDay?: number;
}

export function inventedCurve(group: InventedGroup, family: CurveFamily["family"]): ExactCurve {
  const { label, n, from, to, censorEvery } = group;
  const rows = Array.from({ length: n }, (_, index) => ({
    day: Math.round(
      from + ((to - from) * (index * 0.7 + (index * index * 0.3) / Math.max(1, n))) / Math.max(1, n),
    ),
    event: (index + 1) % censorEvery !== 0,
  }));
  const points = [...new Set(rows.map(({ day }) => day))].reduce<ExactCurve["points"]>((done, day) => {
    const atRisk = rows.filter((row) => row.day >= day).length;
    const events = rows.filter((row) => row.day === day && row.event).length;
    const notYet = (done.at(-1)?.not_yet ?? 1) * (1 - events / atRisk);
    const half = notYet > 0 && notYet < 1 ? 0.9 * Math.sqrt((notYet * (1 - notYet)) / atRisk) : null;
    done.push({
      day,
      at_risk: atRisk,
      events,
      censored: rows.filter((row) => row.day === day && !row.event).length,
      competing: 0,
      not_yet: notYet,
      returned: 1 - notYet,
      standard_error: half,
      returned_lower: half === null ? null : Math.max(0, 1 - notYet - 1.5 * half),
      returned_upper: half === null ? null : Math.min(1, 1 - notYet + 1.5 * half),
    });
    return done;
  }, []);
  const lastDay = group.lastDay ?? Math.max(0, ...rows.map(({ day }) => day));
  const half = points.find(({ returned }) => returned >= 0.5);
  const days: Estimate = half
    ? {
        value: half.day,
        lower: half.day - 11,
        upper: n > 4 ? half.day + 15 : null,
        reason: n > 4 ? null : "not-reached",
      }
    : missing(points.some(({ events }) => events > 0) ? "not-reached" : "no-events");
  const start = {
    day: 0,
    at_risk: n,
    events: 0,
    censored: 0,
    competing: 0,
    not_yet: 1,
    returned: 0,
    standard_error: null,
  };
  return {
    id: `${family}-${label}`,
    family,
    label,
    n,
    events: rows.filter(({ event }) => event).length,
    competing: Math.floor(n / 20),
    persons: n,
    last_day: lastDay,
    points: [{ ...start, returned_lower: null, returned_upper: null }, ...points],
    quantiles: [{ share: 0.5, days }],
    landmarks: [
      {
        week: 13,
        day: 91,
        at_risk: 5,
        returned: missing("beyond-follow-up"),
      },
    ],
    restricted_mean: { horizon_days: 182, days: missing("beyond-follow-up"), standard_error: null },
    other_ends: [],
    number_at_risk: Array.from({ length: Math.floor(lastDay / 28) + 1 }, (_, index) => 28 * index).map(
      (day) => ({
        day,
        at_risk: rows.filter((row) => row.day >= day).length,
        events: rows.filter((row) => row.day <= day && row.event).length,
      }),
    ),
    alone: null,
    falls_early: false,
  };
}

export const inventedFamily = (
  family: CurveFamily["family"],
  groups: readonly InventedGroup[],
): CurveFamily => ({
  family,
  entry: "clock",
  held_equal: [],
  strata_used: [],
  model: null,
  curves: groups.map((group) => inventedCurve(group, family)),
});

export const fiveGrades = inventedFamily("grade", [
  { label: "1", n: 22, from: 10, to: 60, censorEvery: 11 },
  { label: "2", n: 48, from: 30, to: 110, censorEvery: 9 },
  { label: "3", n: 61, from: 55, to: 190, censorEvery: 6, lastDay: 260 },
  { label: "4a", n: 24, from: 90, to: 270, censorEvery: 5, lastDay: 300 },
  { label: "4b", n: 11, from: 130, to: 340, censorEvery: 2, lastDay: 340 },
]);

export const threeTreatments = inventedFamily("compared", [
  { label: "ring", n: 64, from: 35, to: 170, censorEvery: 7, lastDay: 240 },
  { label: "tape", n: 58, from: 40, to: 210, censorEvery: 6, lastDay: 252 },
  { label: "surgery", n: 17, from: 100, to: 260, censorEvery: 4, lastDay: 280 },
]);
