import { isBaseline } from "../cohort/distances.js";
import type { DistancePair, OutcomeRecord } from "../cohort/record.js";
import type { DistanceAsked } from "./specification.js";

/** One injury's distance before and after, mm, and the days between. */
export interface DistanceBeforeAfter {
  readonly person: string;
  readonly grade: string | null;
  readonly beforeMm: number;
  readonly afterMm: number;
  readonly daysBetween: number;
}

/** First and last reading of the distance that is asked for; undefined where there is none. */
export const readingsOf = ({ distances }: OutcomeRecord, asked: DistanceAsked): DistancePair | undefined =>
  distances.find(({ pulley, position }) => pulley === asked.pulley && position === asked.position);

/** The same, where its first reading is a baseline: taken before the first treatment began, or on that day. */
export function baselineOf(record: OutcomeRecord, asked: DistanceAsked): DistancePair | undefined {
  const pair = readingsOf(record, asked);
  return pair !== undefined && isBaseline(pair, record.firstTreatmentDay) ? pair : undefined;
}

/** Injuries with a baseline and a later reading of the distance that is asked for. */
export function completePairs(
  records: readonly OutcomeRecord[],
  asked: DistanceAsked,
): readonly DistanceBeforeAfter[] {
  return records.flatMap((record) => {
    const pair = baselineOf(record, asked);
    if (pair === undefined || pair.followUpMm === null || pair.followUpDay === null) return [];
    return [
      {
        person: record.person,
        grade: record.covariates.grade,
        beforeMm: pair.baselineMm,
        afterMm: pair.followUpMm,
        daysBetween: pair.followUpDay - pair.baselineDay,
      },
    ];
  });
}
