import { causeOf } from "../cohort/columns.js";
import * as terms from "../schema/terms.js";
import { cumulativeIncidence, type IncidenceAt, incidenceAt } from "../statistics/index.js";
import { estimateOf } from "./estimates.js";
import type { ExactOtherEnd } from "./exact-results.js";
import type { Group } from "./groups.js";
import type { ReasonCode } from "./results-parts.js";
import type { Specification } from "./specification.js";

/**
 * The competing ends that occurred in a group, each with the share of all that came to it: shares back and shares of these
 * ends add up to those whose course is settled.
 */
export function otherEndsOf(
  { records, columns }: Pick<Group, "records" | "columns">,
  { landmarks, level }: Pick<Specification, "landmarks" | "level">,
): ExactOtherEnd[] {
  const counts = new Map(
    terms.competingEnds.map((end) => [end, records.filter((record) => record.end === end).length]),
  );
  const occurred = terms.competingEnds.filter((end) => counts.get(end)! > 0);
  if (occurred.length === 0) return [];
  const incidence = cumulativeIncidence(columns.competing, { level });
  return occurred.map((end) => {
    const cause = causeOf(end);
    const own = incidence.causes.find((one) => one.cause === cause)!;
    return {
      end,
      n: counts.get(end)!,
      points: incidence.times.flatMap((day, i) =>
        own.events[i]! > 0
          ? [{ day, share: own.incidence[i]!, lower: own.lower[i] ?? null, upper: own.upper[i] ?? null }]
          : [],
      ),
      landmarks: landmarks.map(({ week, day }) => ({
        week,
        day,
        share: shareOf(incidenceAt(incidence, { time: day, cause })),
      })),
    };
  });
}

const shareOf = ({ incidence: value, lower, upper, reason, limitsReason }: IncidenceAt) =>
  estimateOf({ value, lower, upper, reason: reason ?? withoutLimits(limitsReason) });

/** Everybody came to the end: no return is meant by it. */
const withoutLimits = (reason: ReasonCode | null): ReasonCode | null =>
  reason === "all-returned" ? "no-variance" : reason;
