import { dayNumber, type IsoDate } from "../schema/dates.js";
import type { LinkedInjury } from "./record.js";

/** Day number of the day on which the data were closed; infinite where none is stated. */
export function closeDay(closedOn: IsoDate | null): number {
  return closedOn === null ? Number.POSITIVE_INFINITY : dayNumber(closedOn);
}

/** When the data of an injury or a record were closed: on the day of its site where several were joined, else of the study. */
export const closingOf = (
  { closedOn }: { readonly closedOn?: IsoDate | null },
  question: { readonly closedOn: IsoDate | null },
): IsoDate | null => (closedOn === undefined ? question.closedOn : closedOn);

/**
 * An injury without the treatments, readings and first visit that lie after the close. An episode that
 * ended after the close was still going on at it.
 *
 * Visits and milestone fields stay, since they also tell how long the milestone was known to be *not*
 * reached; what they say about the time after the close is cut in `outcomeOf`.
 */
export function withoutLater(linked: LinkedInjury, closedOn: IsoDate | null): LinkedInjury {
  if (closedOn === null || !hasLater(linked, closedOn)) return linked;
  const ifByClose = (date: IsoDate | null) => (date !== null && date <= closedOn ? date : null);
  const { injury, treatments, imaging } = linked;
  return {
    ...linked,
    injury: {
      ...injury,
      values: { ...injury.values, first_visit_date: ifByClose(injury.values.first_visit_date) },
    },
    treatments: treatments
      .filter(({ values: { start_date } }) => start_date === null || start_date <= closedOn)
      .map((row) => ({ ...row, values: { ...row.values, end_date: ifByClose(row.values.end_date) } })),
    imaging: imaging.filter(({ values }) => values.date <= closedOn),
  };
}

/** Whether anything would be cut: in most injuries nothing is, and they need no copy. */
function hasLater({ injury, treatments, imaging }: LinkedInjury, closedOn: IsoDate): boolean {
  const isLater = (date: IsoDate | null) => date !== null && date > closedOn;
  return (
    isLater(injury.values.first_visit_date) ||
    treatments.some(({ values }) => isLater(values.start_date) || isLater(values.end_date)) ||
    imaging.some(({ values }) => isLater(values.date))
  );
}
