import type { CohortTables } from "../schema/cohort-tables.js";
import { dateOfDay, dayNumber, type IsoDate } from "../schema/dates.js";
import type { InjuryRow } from "../schema/injuries.js";
import { type Milestone, milestones } from "../schema/terms.js";
import type { KeyedNames } from "./keyed-names.js";
import { asBounds } from "./month-spans.js";
import { personOf } from "./persons.js";
import type { RecordEnds } from "./record-ends.js";

/** Days either side by which a day of contact is moved; with the day itself a whole week, so that no weekday is left. */
const eitherSide = 3;

/** For one person: where each day on which the clinic had a part goes. */
type MovedDays = ReadonlyMap<number, number>;

/**
 * The days of contact of some people to the week: visits, scans, treatments, bounds and the last contact go three days or
 * fewer either way, each by its own draw, since clinics are open on few weekdays and several visits on them would tell
 * the weekday of the injury. Days that were in order or alike stay so, and days of injury, return, giving up and new
 * rupture stay where they are, unless they are days of contact: a return that was dated on one is then known to the week.
 */
export function withContactsToTheWeek(
  tables: CohortTables,
  { ends, names }: { readonly ends: RecordEnds; readonly names: KeyedNames },
): CohortTables {
  const moved = movedDaysOf(tables, { ends, names });
  if (moved.size === 0) return tables;
  const personOfInjury = new Map(tables.injuries.map(({ values }) => [values.injury_id, personOf(values)]));
  const movedOf = (injury: string): MovedDays => moved.get(personOfInjury.get(injury) ?? "") ?? new Map();
  return {
    sites: tables.sites,
    injuries: tables.injuries.map((row) => ({
      ...row,
      values: injuryToTheWeek(row.values, movedOf(row.values.injury_id)),
    })),
    treatments: tables.treatments.map((row) => {
      const to = movedOf(row.values.injury_id);
      const { start_date, end_date } = row.values;
      return {
        ...row,
        values: { ...row.values, start_date: dateIn(start_date, to), end_date: dateIn(end_date, to) },
      };
    }),
    imaging: tables.imaging.map((row) => onMovedDay(row, movedOf(row.values.injury_id))),
    visits: tables.visits.map((row) => onMovedDay(row, movedOf(row.values.injury_id))),
  };
}

function onMovedDay<Row extends { readonly values: { readonly date: IsoDate } }>(
  row: Row,
  to: MovedDays,
): Row {
  return { ...row, values: { ...row.values, date: dateIn(row.values.date, to) } };
}

function dateIn<D extends IsoDate | null>(date: D, to: MovedDays): D {
  const day = date === null ? undefined : to.get(dayNumber(date));
  return day === undefined ? date : (dateOfDay(day) as D);
}

function injuryToTheWeek(row: InjuryRow, to: MovedDays): InjuryRow {
  if (to.size === 0) return row;
  const moved: { -readonly [K in keyof InjuryRow]: InjuryRow[K] } = {
    ...row,
    first_visit_date: dateIn(row.first_visit_date, to),
    last_contact_date: dateIn(row.last_contact_date, to),
    new_rupture_date: dateIn(row.new_rupture_date, to),
    gave_up_date: dateIn(row.gave_up_date, to),
  };
  for (const milestone of milestones) {
    for (const part of ["date", "not_before", "not_after"] as const) {
      moved[`${milestone}_${part}`] = dateIn(row[`${milestone}_${part}`], to);
    }
  }
  for (const milestone of milestones) {
    if (isMoved(row[`${milestone}_date`], to)) Object.assign(moved, lessExact(moved, milestone));
  }
  return moved;
}

const isMoved = (date: IsoDate | null, to: MovedDays): boolean => date !== null && to.has(dayNumber(date));

/** A moved milestone: known to the week where it was known to the day, a fortnight where it was known to the week. */
function lessExact(row: InjuryRow, milestone: Milestone): Partial<InjuryRow> {
  if (row[`${milestone}_precision`] !== "week") return { [`${milestone}_precision`]: "week" };
  const day = dayNumber(row[`${milestone}_date`]!);
  return asBounds(row, { milestone, first: day - 2 * eitherSide, last: day + 2 * eitherSide });
}

function movedDaysOf(
  tables: CohortTables,
  { ends, names }: { readonly ends: RecordEnds; readonly names: KeyedNames },
): ReadonlyMap<string, MovedDays> {
  const days = new Map<
    string,
    { readonly injuries: Set<number>; readonly own: Set<number>; readonly contacts: Set<number> }
  >();
  const injuries = new Map(tables.injuries.map(({ values }) => [values.injury_id, personOf(values)]));
  for (const person of injuries.values()) {
    if (ends.get(person)!.toTheWeek) {
      days.set(person, { injuries: new Set(), own: new Set(), contacts: new Set() });
    }
  }
  const add = (injury: string, dates: readonly (IsoDate | null)[], to: "injuries" | "own" | "contacts") => {
    for (const date of dates)
      if (date !== null) days.get(injuries.get(injury) ?? "")?.[to].add(dayNumber(date));
  };
  for (const { values } of tables.injuries) {
    const { injury_id } = values;
    add(injury_id, [values.injury_date], "injuries");
    add(injury_id, [values.first_visit_date, values.last_contact_date], "contacts");
    add(injury_id, [values.new_rupture_date, values.gave_up_date], "own");
    for (const milestone of milestones) {
      add(injury_id, [values[`${milestone}_not_before`], values[`${milestone}_not_after`]], "contacts");
      // a week is written by its Thursday, so that its day tells the weekday
      const isRough = values[`${milestone}_precision`] === "week";
      add(injury_id, [values[`${milestone}_date`]], isRough ? "contacts" : "own");
    }
  }
  for (const { values } of tables.treatments) {
    add(values.injury_id, [values.start_date, values.end_date], "contacts");
  }
  for (const { values } of [...tables.imaging, ...tables.visits])
    add(values.injury_id, [values.date], "contacts");
  return new Map(
    [...days].map(([person, own]) => [
      person,
      inOrder(
        own,
        (day) => names.numberOf("contact", [person, String(day)], 2 * eitherSide + 1) - eitherSide,
      ),
    ]),
  );
}

/**
 * Where each day of contact goes: by its draw, as far as that keeps it after the day before it and before the next day
 * that stays. Days stay three days or fewer from where they were.
 */
function inOrder(
  {
    injuries,
    own,
    contacts,
  }: {
    readonly injuries: ReadonlySet<number>;
    readonly own: ReadonlySet<number>;
    readonly contacts: ReadonlySet<number>;
  },
  draw: (day: number) => number,
): MovedDays {
  const staying = new Set([...injuries, ...[...own].filter((day) => !contacts.has(day))]);
  const sorted = [...new Set([...staying, ...contacts])].sort((one, other) => one - other);
  const latest = latestDays(sorted, staying);
  const moved = new Map<number, number>();
  let earliest = Number.NEGATIVE_INFINITY;
  for (const [place, day] of sorted.entries()) {
    if (staying.has(day)) earliest = day;
    if (!contacts.has(day)) {
      earliest = day + 1;
      continue;
    }
    const to = Math.min(Math.max(day + draw(day), earliest), latest[place]!);
    moved.set(day, to);
    earliest = to + 1;
  }
  return moved;
}

/** The latest place of each day that leaves room for those between it and the next day that stays. */
function latestDays(sorted: readonly number[], staying: ReadonlySet<number>): readonly number[] {
  const latest: number[] = [];
  let before = Number.POSITIVE_INFINITY;
  for (const day of [...sorted].reverse()) {
    latest.push(before - 1);
    before = staying.has(day) ? day : before - 1;
  }
  return latest.reverse();
}
