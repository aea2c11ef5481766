import { daysBetween } from "../schema/dates.js";
import type { InjuryRow } from "../schema/injuries.js";
import { milestones } from "../schema/terms.js";

/** Days after the date that a milestone known to the week may still lie on; a month has at most 30 more. */
const daysAfter = { day: 0, week: 3, month: 30 } as const;

/**
 * A row as it was known when the data were closed, since a copy in which everybody has a calendar of their own can no
 * longer say which day that was. Rows with dates beyond it are set aside where files are read, so that only a return
 * dated to the week or month is left that may reach beyond: its interval ends at the close.
 */
export function knownAtClose(row: InjuryRow, closedOn: string | null): InjuryRow {
  if (closedOn === null) return row;
  const known: { -readonly [K in keyof InjuryRow]: InjuryRow[K] } = { ...row };
  for (const milestone of milestones) {
    const date = row[`${milestone}_date`];
    const precision = row[`${milestone}_precision`];
    if (date === null || daysBetween(date, closedOn) >= daysAfter[precision ?? "day"]) continue;
    const notAfter = row[`${milestone}_not_after`];
    if (date > closedOn) {
      // seen after the close: at the close it was not yet known
      known[`${milestone}_date`] = null;
      known[`${milestone}_precision`] = null;
      known[`${milestone}_not_after`] = null;
    } else if (date > row.last_contact_date && (notAfter === null || notAfter > closedOn)) {
      known[`${milestone}_not_after`] = closedOn;
    }
  }
  return known;
}
