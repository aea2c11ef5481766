import { isCompeting, type OutcomeRecord } from "../cohort/record.js";
import { quantileTime, shareAt } from "../statistics/index.js";
import { daysShown } from "./days-shown.js";
import { estimateOfFigures, shareBackAt } from "./estimates.js";
import type { ExactCurve, ExactFamily, ExactPoint } from "./exact-results.js";
import { type Group, type Grouping, hasSpans } from "./groups.js";
import { meanTimeOf } from "./mean-time.js";
import { otherEndsOf } from "./other-ends.js";
import { sharesAsked } from "./quantiles-of-points.js";
import { curveFromSpans } from "./spans/curves.js";
import { withTimeRatios } from "./spans/family.js";
import type { Specification } from "./specification.js";
import { startOfCurve } from "./start-of-curve.js";

type Asked = Pick<Specification, "comparison" | "landmarks" | "horizonDay" | "level" | "shareBack">;

/** The return curve of each group, with everything that is read off it. */
export function curveFamily(grouping: Grouping, asked: Asked): ExactFamily {
  const { family, entry, groups } = grouping;
  const last = Math.max(0, ...groups.map(({ records }) => latest(records)));
  const days = daysShown(last, asked.horizonDay);
  return {
    family,
    entry,
    held_equal: [],
    strata_used: [],
    model:
      grouping.modelled === null
        ? null
        : withTimeRatios(grouping.modelled, {
            labels: family === "compared" ? groups.map(({ label }) => label) : [],
            reference: asked.comparison.reference,
          }),
    curves: groups.map((group) => ({
      ...curveOf(group, asked),
      id: `${family}:${group.label}`,
      family,
      number_at_risk: days.map((day) => {
        const { atRisk, cumulativeEvents } = shareAt(group.curve, day);
        return { day, at_risk: atRisk, events: cumulativeEvents };
      }),
      ...(hasSpans(group) ? curveFromSpans(group, { ...asked, days }) : {}),
    })),
  };
}

function curveOf(group: Group, asked: Asked): Omit<ExactCurve, "id" | "family" | "number_at_risk"> {
  const { label, records, columns, curve } = group;
  return {
    label,
    n: records.length,
    events: curve.totalEvents,
    competing: records.filter(({ end }) => isCompeting(end)).length,
    persons: columns.persons(),
    last_day: curve.lastTime ?? 0,
    points: pointsOf(group),
    quantiles: sharesAsked.map((share) => ({ share, days: estimateOfFigures(quantileTime(curve, share)) })),
    landmarks: landmarksOf(group, asked),
    restricted_mean: { horizon_days: asked.horizonDay, ...meanTimeOf(group, asked) },
    other_ends: otherEndsOf(group, asked),
    alone: null,
    falls_early: fallsEarly(group),
  };
}

/** With delayed entry a curve can reach its end while hardly anybody is at risk. */
export const fallsEarly = ({ curve, modelled }: Group): boolean =>
  curve.reachedZeroEarly && modelled === null;

function pointsOf({ curve, records }: Group): ExactPoint[] {
  const start: ExactPoint = startOfCurve({
    at_risk: shareAt(curve, 0).atRisk,
    events: 0,
    censored: 0,
    competing: 0,
  });
  const competing = competingByDay(records);
  const steps = curve.times.map((day, i): ExactPoint => {
    const lower = curve.lower[i] ?? null;
    const upper = curve.upper[i] ?? null;
    return {
      day,
      at_risk: curve.atRisk[i]!,
      events: curve.events[i]!,
      // where competing ends are read as ends of follow-up the curve counts them among these
      censored: curve.censored[i]! + (curve.competing?.[i] ?? 0) - (competing.get(day) ?? 0),
      competing: competing.get(day) ?? 0,
      not_yet: curve.notYet[i]!,
      returned: 1 - curve.notYet[i]!,
      standard_error: curve.standardError[i] ?? null,
      returned_lower: upper === null ? null : 1 - upper,
      returned_upper: lower === null ? null : 1 - lower,
    };
  });
  return steps[0]?.day === 0 ? steps : [start, ...steps];
}

/** Competing ends on each day on which there was any. */
function competingByDay(records: readonly OutcomeRecord[]): ReadonlyMap<number, number> {
  const found = new Map<number, number>();
  for (const { end, time } of records) if (isCompeting(end)) found.set(time, (found.get(time) ?? 0) + 1);
  return found;
}

function landmarksOf(
  { curve }: Group,
  { landmarks, level }: Pick<Asked, "landmarks" | "level">,
): ExactCurve["landmarks"] {
  return landmarks.map(({ week, day }) => {
    const { estimate: returned, atRisk: at_risk } = shareBackAt(curve, { day, level });
    return { week, day, at_risk, returned };
  });
}

const latest = (records: readonly OutcomeRecord[]): number =>
  records.reduce((last, { time }) => Math.max(last, time), 0);
