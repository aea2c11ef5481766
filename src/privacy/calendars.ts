import { yearsOfDates } from "../schema/cells/day.js";
import { dayNumber, type IsoDate } from "../schema/dates.js";
import type { KeyedNames } from "./keyed-names.js";
import type { RecordEnds } from "./record-ends.js";
import type { ShareSettings } from "./settings.js";
import type { Timeline } from "./timelines.js";

/** How many days each person's dates are moved, by person; the same for all rows of a person. */
export type Calendars = ReadonlyMap<string, number>;

/** Day 0 of the person's calendar where dates leave as offsets. */
export const dayZero: IsoDate = "2000-01-01";

/** Day 0 where the first injury is known to the month only: the middle of a month, as far from either end. */
const middleOfMonth: IsoDate = "2000-01-16";

/** The days that a table's cells may hold. */
const readable = {
  first: dayNumber(`${yearsOfDates.from}-01-01`),
  last: dayNumber(`${yearsOfDates.to}-12-31`),
};

/**
 * The move of each person's dates. Every difference in days between two dates of a person stays.
 *
 * - offsets: the first injury of each person falls on 1 January 2000 (16 January where it is known to the month);
 * - shifted: by a number of days drawn by the key for each person, never so few that the real day is among them, and
 *   with the days by which the record was drawn back from the close added, so that the moved days and the known close
 *   leave a whole window of possible days. Persons hurt within a window of the site's first patient are moved later
 *   only. Ranges are nested, so that copies made with several of them and one key do not narrow each other.
 *
 * @param timelines the days as they will stand in the copy, before the move
 */
export function calendarsOf(
  timelines: readonly Timeline[],
  {
    settings,
    names,
    ends,
  }: { readonly settings: ShareSettings; readonly names: KeyedNames; readonly ends: RecordEnds },
): Calendars {
  return new Map(timelines.map((timeline) => [timeline.person, moveOf(timeline, { settings, names, ends })]));
}

function moveOf(
  timeline: Timeline,
  {
    settings,
    names,
    ends,
  }: { readonly settings: ShareSettings; readonly names: KeyedNames; readonly ends: RecordEnds },
): number {
  const { person, firstInjury, firstPrecision, lastSeen } = timeline;
  if (settings.dates === "as-they-are") return 0;
  if (settings.dates === "offsets") {
    const start = dayNumber(firstPrecision === "month" ? middleOfMonth : dayZero);
    const fits = start + lastSeen - firstInjury <= readable.last;
    return (fits ? start : readable.first) - firstInjury;
  }
  const { drawnBack, isEarly } = ends.get(person)!;
  const days = names.numberOf("calendar", [person], settings.shiftDays) + 1;
  const isLater = isEarly || names.numberOf("direction", [person], 2) === 1;
  return (isLater ? days : 1 - settings.closingWindow - days) + drawnBack;
}
