import { dayNumber } from "../schema/dates.js";
import type { Treatment } from "../schema/terms.js";
import type { Episode, LinkedInjury } from "./record.js";

/** The first treatment of interest and its day number (1970-01-01 = 0). */
export interface FirstTreatment {
  readonly treatment: Treatment | "several";
  readonly day: number;
}

/**
 * The treatment of interest that began first; `several` where two different ones began on that day
 * (two kinds of one treatment are one treatment). Other treatments, before or after, are background.
 *
 * @param ofInterest treatments that count
 * @returns null where there was none
 */
export function firstTreatment(
  { treatments }: LinkedInjury,
  ofInterest: readonly Treatment[],
): FirstTreatment | null {
  const counted = treatments.filter(({ values }) => ofInterest.includes(values.treatment));
  const first = counted[0]?.values;
  if (first === undefined) return null;
  const alone = counted.every(
    ({ values }) => values.start_date !== first.start_date || values.treatment === first.treatment,
  );
  return { treatment: alone ? first.treatment : "several", day: dayNumber(first.start_date) };
}

/** All episodes in order of their start, in whole days from day 0: negative where they began before it. */
export function episodesFrom({ treatments }: LinkedInjury, dayZero: number): readonly Episode[] {
  return treatments.map(({ values: { treatment, kind, start_date, end_date } }) => ({
    treatment,
    kind,
    from: dayNumber(start_date) - dayZero,
    to: end_date === null ? null : dayNumber(end_date) - dayZero,
  }));
}
