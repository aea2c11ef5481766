import { dayNumber } from "../schema/dates.js";
import type { ImagingRow } from "../schema/imaging.js";
import { type Position, type Pulley, positions, pulleys } from "../schema/terms.js";
import type { DistancePair, LinkedInjury } from "./record.js";

/**
 * First and last tendon-phalanx distance of the injured finger, one pair a pulley and position that was measured,
 * in the order of the vocabularies.
 *
 * The baseline is the mean of all readings of the first day on which that distance was measured, the follow-up
 * that of the last day, where it is a later one. Blank fields are read as their descriptions say: side as
 * injured, bound as exact; blank taped as untaped. Left out are readings of the other hand, readings with tape on
 * (they measure the tape as well) and bounds such as '< 1' (a bound has no mean). Ultrasound, MRI and CT are not
 * told apart.
 *
 * @param dayZero day number of day 0; a scan before it has a negative day
 */
export function distancePairs({ imaging }: LinkedInjury, dayZero: number): readonly DistancePair[] {
  const readings = imaging.map(({ values }) => values).filter(isComparable);
  const pairs: DistancePair[] = [];
  for (const pulley of pulleys) {
    const ofPulley = readings.filter((row) => row.pulley === pulley);
    if (ofPulley.length === 0) continue;
    for (const position of positions) {
      const alike = ofPulley.filter((row) => row.position === position);
      if (alike.length > 0) pairs.push(pairOf(alike, { pulley, position, dayZero }));
    }
  }
  return pairs;
}

/**
 * Whether the first reading of a pair tells of the finger before its treatment: one taken after the first treatment began is
 * no baseline; one on that day is.
 */
export const isBaseline = (
  { baselineDay }: Pick<DistancePair, "baselineDay">,
  firstTreatmentDay: number | null,
): boolean => firstTreatmentDay === null || baselineDay <= firstTreatmentDay;

const isComparable = ({ side, taped, bound }: ImagingRow) =>
  side !== "other" && taped !== "yes" && (bound === null || bound === "exact");

/** @param readings alike readings in order of date, at least one */
function pairOf(
  readings: readonly ImagingRow[],
  { pulley, position, dayZero }: { pulley: Pulley; position: Position; dayZero: number },
): DistancePair {
  const [first, last] = [readings.at(0)!, readings.at(-1)!];
  const meanOn = (date: string) => mean(readings.filter((row) => row.date === date));
  const later = last.date > first.date ? last.date : null;
  return {
    pulley,
    position,
    baselineMm: meanOn(first.date),
    baselineDay: dayNumber(first.date) - dayZero,
    followUpMm: later === null ? null : meanOn(later),
    followUpDay: later === null ? null : dayNumber(later) - dayZero,
  };
}

/** Summed from the smallest up, so that the order of the rows can't change the last digit. */
function mean(readings: readonly ImagingRow[]): number {
  const distances = readings.map((row) => row.distance_mm).sort((a, b) => a - b);
  return distances.reduce((sum, distance) => sum + distance, 0) / distances.length;
}
