import { laterThan } from "../../schema/cells/later-than.js";
import { type Period, periodOf } from "../../schema/cells/period.js";
import { dateOfDay, dayNumber, type IsoDate } from "../../schema/dates.js";
import type { InjuryRow } from "../../schema/injuries.js";

/** What the four columns of a milestone hold. */
interface MilestoneCells {
  readonly date: IsoDate | null;
  readonly precision: "week" | "month" | "later" | null;
  readonly not_before: IsoDate | null;
  readonly not_after: IsoDate | null;
}

/**
 * A milestone from its one cell: a day as its date; a week as its Thursday and a month as its 15th, with their
 * precision; a span of days as the day before it, known to be before, and its last day, known to be at or after; a day that it
 * came later than as that day, and nothing else.
 */
export function milestoneOf(text: string | null): MilestoneCells {
  const bound = text === null ? null : laterThan(text);
  if (bound !== null) return { date: null, precision: "later", not_before: bound, not_after: null };
  const period = text === null ? null : periodOf(text);
  if (period?.form === "span")
    return { date: null, precision: null, not_before: dayBefore(period.first), not_after: period.last };
  const { date, precision } = period === null ? notKnown : dated(period);
  return { date, precision, not_before: null, not_after: null };
}

const notKnown = { date: null, precision: null } as const;
const dayBefore = (date: IsoDate): IsoDate => dateOfDay(dayNumber(date) - 1);

interface Dated {
  readonly date: IsoDate;
  readonly precision: "week" | "month" | null;
}

function dated({ form, first }: Period): Dated {
  switch (form) {
    case "week":
      return { date: dateOfDay(dayNumber(first) + 3), precision: "week" };
    case "month":
      return { date: `${first.slice(0, 8)}15`, precision: "month" };
    default:
      return { date: first, precision: null };
  }
}

const daysInWeek = 7;

/**
 * The day of the injury with its precision. A span of up to a week is known to the week about its middle, one within
 * a calendar month to the month; a wider one is not to be used, see `isTooWide`.
 */
export function injuryDay(text: string): Pick<InjuryRow, "injury_date" | "injury_date_precision"> {
  const { date, precision } = datedInjury(periodOf(text) ?? { form: "day", first: text, last: text });
  return { injury_date: date, injury_date_precision: precision };
}

function datedInjury(period: Period): Dated {
  if (period.form !== "span") return dated(period);
  const days = dayNumber(period.last) - dayNumber(period.first);
  const middle = dateOfDay(dayNumber(period.first) + Math.floor(days / 2));
  return { date: middle, precision: days < daysInWeek ? "week" : "month" };
}

/** Whether a period is a span over more than a week that does not lie within one month. */
export function isTooWide(text: string): boolean {
  const period = periodOf(text);
  if (period?.form !== "span") return false;
  const days = dayNumber(period.last) - dayNumber(period.first);
  return days >= daysInWeek && period.first.slice(0, 7) !== period.last.slice(0, 7);
}
