import type { TypedRow } from "../schema/cells.js";
import type { CohortTables } from "../schema/cohort-tables.js";
import { dateOfDay, dayNumber, type IsoDate } from "../schema/dates.js";
import type { InjuryRow } from "../schema/injuries.js";
import { type Milestone, milestones, type Precision } from "../schema/terms.js";
import type { TreatmentRow } from "../schema/treatments.js";
import { datedColumnsOf } from "./dated-columns.js";
import { personNamer, type Values } from "./persons.js";
import type { RecordEnds } from "./record-ends.js";
import { lastKnownDay, seenByInjury, seenDays } from "./timelines.js";

/** Days after the date that a milestone may still lie on; a month has at most 30 more. */
const daysAfter: Readonly<Record<Precision, number>> = { day: 0, week: 3, month: 30 };

/**
 * The tables as they would stand if the data of each person had been closed on the last day of the record: what was
 * hurt, done or seen later is not in them, and what was going on then still goes on.
 */
export function asKnownOn(tables: CohortTables, ends: RecordEnds): CohortTables {
  const seen = seenByInjury(tables);
  const personOf = personNamer(tables);
  const endOf = (row: InjuryRow): number => ends.get(personOf(row))!.day;
  const injuries = tables.injuries.filter(({ values }) => dayNumber(values.injury_date) <= endOf(values));
  const endOfInjury = new Map(injuries.map(({ values }) => [values.injury_id, endOf(values)]));
  const isTold =
    (table: "treatments" | "imaging" | "visits") =>
    ({ values }: { readonly values: { readonly injury_id: string } }) => {
      const end = endOfInjury.get(values.injury_id) ?? Number.NEGATIVE_INFINITY;
      return seenDays(table, values).every((day) => day <= end);
    };
  return {
    ...tables,
    injuries: injuries.map((row) => ({
      ...row,
      values: injuryKnownOn(row.values, {
        end: endOfInjury.get(row.values.injury_id)!,
        seen: seen.get(row.values.injury_id) ?? Number.NEGATIVE_INFINITY,
      }),
    })),
    treatments: tables.treatments
      .filter(isTold("treatments"))
      .map((row) => stillGoingOn(row, endOfInjury.get(row.values.injury_id)!)),
    imaging: tables.imaging.filter(isTold("imaging")),
    visits: tables.visits.filter(isTold("visits")),
  };
}

function stillGoingOn(row: TypedRow<TreatmentRow>, end: number): TypedRow<TreatmentRow> {
  const { end_date } = row.values;
  if (end_date === null || dayNumber(end_date) <= end) return row;
  return { ...row, values: { ...row.values, end_date: null, reason_ended: null } };
}

function injuryKnownOn(
  row: InjuryRow,
  { end, seen }: { readonly end: number; readonly seen: number },
): InjuryRow {
  const isLater = (date: IsoDate | null) => date !== null && dayNumber(date) > end;
  const goesOn = isLater(row.last_contact_date);
  const known: { -readonly [K in keyof InjuryRow]: InjuryRow[K] } = {
    ...row,
    ...laterBlank(row, isLater),
    last_contact_date: Math.max(lastKnownDay(row), seen) > end ? dateOfDay(end) : row.last_contact_date,
    ...(goesOn ? { end_status: "in_follow_up", level_after: null } : {}),
  };
  for (const milestone of milestones) Object.assign(known, milestoneKnownOn(row, { milestone, end }));
  return known;
}

const courseDates = datedColumnsOf("injuries").filter(({ when }) => when === "course");

/** The dates in the course of an injury that are not told yet, blank. */
const laterBlank = (row: Values, isLater: (date: IsoDate | null) => boolean): Partial<InjuryRow> =>
  Object.fromEntries(
    courseDates.filter(({ name }) => isLater(row[name] as IsoDate | null)).map(({ name }) => [name, null]),
  );

/** The cells of a milestone; one dated by then to the week or month that reaches beyond was reached by then. */
function milestoneKnownOn(
  row: InjuryRow,
  { milestone, end }: { readonly milestone: Milestone; readonly end: number },
): Partial<InjuryRow> {
  const [date, precision] = [row[`${milestone}_date`], row[`${milestone}_precision`]];
  const [notBefore, notAfter] = [row[`${milestone}_not_before`], row[`${milestone}_not_after`]];
  const isTold = date !== null && dayNumber(date) <= end;
  const isLater = precision === "later";
  const reachesBeyond = isTold && !isLater && dayNumber(date) + daysAfter[precision ?? "day"] > end;
  const bound = notAfter !== null && dayNumber(notAfter) <= end ? notAfter : null;
  return {
    [`${milestone}_date`]: isTold ? date : null,
    [`${milestone}_precision`]: isTold || isLater ? precision : null,
    [`${milestone}_not_before`]:
      notBefore !== null && dayNumber(notBefore) > end ? dateOfDay(end) : notBefore,
    // a date seen before the close was not yet one when nobody had told it
    [`${milestone}_not_after`]:
      reachesBeyond && date > row.last_contact_date
        ? dateOfDay(end)
        : date !== null && !isTold
          ? null
          : bound,
  };
}
