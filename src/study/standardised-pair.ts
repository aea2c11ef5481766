import type { OutcomeRecord } from "../cohort/record.js";
import { type GroupedInStrata, type StandardisedCurves, standardisedCurves } from "../statistics/index.js";
import { columnsOf, countedFor } from "./columns.js";
import { type LeftOut, type PairRows, recordedRows } from "./pair-rows.js";
import type { Landmark, Specification } from "./specification.js";

/** Two groups compared stratum for stratum (grade for grade), in the strata in which both can be followed to the horizon. */
export interface StandardisedPair {
  /** The strata used, by their names. */
  readonly strata: readonly string[];
  /** Who is left out: strata, with the injuries of both groups, and injuries that are in none. */
  readonly leftOut: readonly LeftOut[];
  /** The injuries in which everything held equal was recorded, as columns, and the days at which the curves are read. */
  readonly grouped: GroupedInStrata;
  readonly days: readonly number[];
  /** Shares on every day of the curves, the landmarks among them, and the restricted means. */
  readonly curves: StandardisedCurves;
  /** The injuries of each group in the strata used. */
  readonly records: Readonly<Record<"compared" | "reference", readonly OutcomeRecord[]>>;
  /** Independent units among these injuries. */
  readonly units: number;
}

type Asked = Pick<Specification, "comparison" | "landmarks" | "horizonDay" | "level" | "shareBack">;

/** Days of the curve between which nothing is drawn: one each day while there are few, else evenly spaced. */
const mostDays = 91;

/**
 * Both groups of a pair at one mix of strata; null where the study holds no strata equal.
 *
 * @param rows the injuries of both groups
 * @param asked what is held equal, and the days at which the curves are read
 */
export function standardisedPair(rows: PairRows, asked: Asked): StandardisedPair | null {
  if (rows.strata === null) return null;
  const { horizonDay: horizon, level, comparison, shareBack } = asked;
  const recorded = recordedRows(rows, { strata: comparison.strata, numbers: [] });
  const { records, isCompared, clustered, columns } = recorded.rows;
  const strata = recorded.rows.strata!;
  const grouped = { ...countedFor(columns, shareBack), groups: isCompared, strata: strata.codes };
  const days = daysOfCurve(records, asked);
  const curves = standardisedCurves(grouped, {
    times: days,
    horizon,
    level,
    smallest: comparison.smallestGroup,
  });
  const used = new Set(curves.used.map(({ stratum }) => stratum));
  const recordsOf = (side: 0 | 1) =>
    records.filter((_, row) => isCompared[row] === side && used.has(strata.codes[row]!));
  const kept = { compared: recordsOf(1), reference: recordsOf(0) };
  const { units } = columnsOf([...kept.compared, ...kept.reference], { clustered });
  return {
    strata: curves.used.map(({ stratum }) => strata.labels[stratum]!),
    leftOut: [
      ...recorded.leftOut,
      ...curves.leftOut.map(({ stratum, n, reason }) => ({
        stratum: strata.labels[stratum]!,
        n: n[0] + n[1],
        reason,
      })),
    ],
    grouped,
    days,
    curves,
    records: kept,
    units,
  };
}

/** Days on which somebody of the pair was back, thinned evenly where there are many; the landmarks are always among them. */
export function daysOfCurve(
  records: readonly OutcomeRecord[],
  { landmarks, horizonDay }: { readonly landmarks: readonly Landmark[]; readonly horizonDay: number },
): number[] {
  const back = new Set(
    records.flatMap(({ end, time }) => (end === "milestone" && time <= horizonDay ? [time] : [])),
  );
  const every = Math.ceil(back.size / mostDays);
  const grid =
    every <= 1
      ? [...back]
      : Array.from({ length: Math.floor(horizonDay / every) }, (_, i) => (i + 1) * every);
  return [...new Set([...grid, ...landmarks.map(({ day }) => day)])].sort((a, b) => a - b);
}
