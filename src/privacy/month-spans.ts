import type { TypedRow } from "../schema/cells.js";
import type { CohortTables } from "../schema/cohort-tables.js";
import { dateOfDay, dayNumber, type IsoDate } from "../schema/dates.js";
import type { InjuryRow } from "../schema/injuries.js";
import { type Milestone, milestones } from "../schema/terms.js";
import type { KeyedNames } from "./keyed-names.js";

/** Days of the longest month. */
const month = 31;

/** A span that holds a month wherever it begins within the first half of the span. */
export const monthSpan = 2 * month - 1;

/**
 * Dates known to the month, without the calendar. On a calendar of the person's own a month has another length, and
 * the day on which one begins would tell the day of the month of all else. So each becomes a span of 61 days, as
 * long for February as for March, that begins a number of days before the first of the month, from 0 to 30, drawn by
 * the key: all days of the month lie in it, and where it begins is told to nobody. A day of injury known to the month is
 * drawn anew from the 31 days about the middle of its month.
 *
 * @returns the tables, with such milestones as bounds (`_not_before`, `_not_after`) in place of a date
 */
export function withMonthsAsSpans(tables: CohortTables, names: KeyedNames): CohortTables {
  return { ...tables, injuries: tables.injuries.map((row) => spansOf(row, names)) };
}

function spansOf(row: TypedRow<InjuryRow>, names: KeyedNames): TypedRow<InjuryRow> {
  const { values } = row;
  const rough = milestones.filter((milestone) => isToTheMonth(values, milestone));
  if (rough.length === 0 && values.injury_date_precision !== "month") return row;
  const spans: Partial<InjuryRow> = {};
  const draw = (what: string) => names.numberOf("month", [values.injury_id, what], month);
  for (const milestone of rough) {
    const first = firstOfMonth(values[`${milestone}_date`]!) - draw(milestone);
    Object.assign(spans, asBounds(values, { milestone, first, last: first + monthSpan - 1 }));
  }
  if (values.injury_date_precision === "month") {
    spans.injury_date = dateOfDay(firstOfMonth(values.injury_date) + draw("injury"));
  }
  return { ...row, values: { ...values, ...spans } };
}

const isToTheMonth = (row: InjuryRow, milestone: Milestone): boolean =>
  row[`${milestone}_date`] !== null && row[`${milestone}_precision`] === "month";

const firstOfMonth = (date: IsoDate): number => dayNumber(`${date.slice(0, 8)}01`);

/**
 * A milestone that lies between two days as bounds, narrowed by the bounds that stand in the row and by the last
 * contact where the dated one lies before it; bounds that would leave no day are not used.
 */
export function asBounds(
  row: InjuryRow,
  {
    milestone,
    first,
    last,
  }: { readonly milestone: Milestone; readonly first: number; readonly last: number },
): Partial<InjuryRow> {
  const dayOf = (date: IsoDate | null) => (date === null ? null : dayNumber(date));
  const contact = dayNumber(row.last_contact_date);
  const upTo =
    dayNumber(row[`${milestone}_date`]!) <= contact && first <= contact ? Math.min(last, contact) : last;
  const left = Math.max(first - 1, dayOf(row[`${milestone}_not_before`]) ?? Number.NEGATIVE_INFINITY);
  const right = Math.min(upTo, dayOf(row[`${milestone}_not_after`]) ?? Number.POSITIVE_INFINITY);
  const kept = left < right ? { left, right } : { left: first - 1, right: upTo };
  return {
    [`${milestone}_date`]: null,
    [`${milestone}_precision`]: null,
    // nothing is told of the days before the injury
    [`${milestone}_not_before`]: kept.left < dayNumber(row.injury_date) ? null : dateOfDay(kept.left),
    [`${milestone}_not_after`]: dateOfDay(kept.right),
  };
}
