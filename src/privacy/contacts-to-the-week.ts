import type { CohortTables } from "../schema/cohort-tables.js";
import { dateOfDay, dayNumber, type IsoDate } from "../schema/dates.js";
import type { InjuryRow } from "../schema/injuries.js";
import { type Milestone, milestones } from "../schema/terms.js";
import { type DatedColumn, datedColumnsOf } from "./dated-columns.js";
import type { KeyedNames } from "./keyed-names.js";
import { asBounds } from "./month-spans.js";
import { personsOfInjuries, type Values } from "./persons.js";
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
  const personOfInjury = personsOfInjuries(tables);
  const movedOf = (injury: string): MovedDays => moved.get(personOfInjury.get(injury) ?? "") ?? new Map();
  return {
    ...tables,
    injuries: tables.injuries.map((row) => ({
      ...row,
      values: injuryToTheWeek(row.values, movedOf(row.values.injury_id)),
    })),
    treatments: tables.treatments.map((row) =>
      onMovedDays(row, { table: "treatments", to: movedOf(row.values.injury_id) }),
    ),
    imaging: tables.imaging.map((row) =>
      onMovedDays(row, { table: "imaging", to: movedOf(row.values.injury_id) }),
    ),
    visits: tables.visits.map((row) =>
      onMovedDays(row, { table: "visits", to: movedOf(row.values.injury_id) }),
    ),
  };
}

const columnsOf = {
  injuries: datedColumnsOf("injuries"),
  treatments: datedColumnsOf("treatments"),
  imaging: datedColumnsOf("imaging"),
  visits: datedColumnsOf("visits"),
};
type DatedTable = keyof typeof columnsOf;

const onMovedDays = <Row extends { readonly values: object }>(
  row: Row,
  moved: { readonly table: DatedTable; readonly to: MovedDays },
): Row => ({ ...row, values: { ...row.values, ...movedDates(row.values as Values, moved) } });

/** The dates of a row that move, by column; the day of the injury stays. */
function movedDates(
  values: Values,
  { table, to }: { readonly table: DatedTable; readonly to: MovedDays },
): Readonly<Record<string, IsoDate>> {
  const dates: Record<string, IsoDate> = {};
  for (const { name, move } of columnsOf[table]) {
    const date = values[name] as IsoDate | null;
    const day = date === null || move === "injury" ? undefined : to.get(dayNumber(date));
    if (day !== undefined) dates[name] = dateOfDay(day);
  }
  return dates;
}

function injuryToTheWeek(row: InjuryRow, to: MovedDays): InjuryRow {
  if (to.size === 0) return row;
  const moved: { -readonly [K in keyof InjuryRow]: InjuryRow[K] } = {
    ...row,
    ...movedDates(row, { table: "injuries", to }),
  };
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
  const injuries = personsOfInjuries(tables);
  for (const person of injuries.values()) {
    if (ends.get(person)!.toTheWeek) {
      days.set(person, { injuries: new Set(), own: new Set(), contacts: new Set() });
    }
  }
  for (const table of Object.keys(columnsOf) as DatedTable[]) {
    for (const row of tables[table]) {
      const ofPerson = days.get(injuries.get(row.values.injury_id) ?? "");
      if (ofPerson === undefined) continue;
      const values: Values = row.values;
      for (const column of columnsOf[table]) {
        const date = values[column.name] as IsoDate | null;
        if (date !== null) ofPerson[kindOf(column, values)].add(dayNumber(date));
      }
    }
  }
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

/** A week is written by its Thursday, so that its day tells the weekday as a day of contact does. */
function kindOf({ move, precision }: DatedColumn, values: Values): "injuries" | "own" | "contacts" {
  if (move === "injury") return "injuries";
  const isRough = precision !== null && values[precision] === "week";
  return move === "contact" || isRough ? "contacts" : "own";
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
