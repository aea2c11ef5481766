import type { CohortTables } from "../schema/cohort-tables.js";
import { dateOfDay, dayNumber, type IsoDate } from "../schema/dates.js";
import { tables as schemas, type Table } from "../schema/tables.js";
import { milestones } from "../schema/terms.js";
import type { KeyedNames } from "./keyed-names.js";
import { injuryTables, personsOfInjuries, type Values } from "./persons.js";
import type { ShareSettings } from "./settings.js";

/** How many days each person's dates are moved, by person; the same for all rows of a person. */
export type Calendars = ReadonlyMap<string, number>;

/** Day 0 of the person's calendar where dates leave as offsets. */
export const dayZero: IsoDate = "2000-01-01";

/** The days that a table's cells may hold (see the reading of dates). */
const readable = { first: dayNumber("1950-01-01"), last: dayNumber("2099-12-31") };

/** Days in four years with a leap day: moved by that much, every month keeps its length. */
const fourYears = 1461;

interface DatesOfPerson {
  readonly person: string;
  readonly firstInjury: number;
  readonly earliest: number;
  readonly latest: number;
  /** Dates known to the month only: what they stand for depends on how long that month is. */
  readonly toTheMonth: readonly number[];
}

/**
 * The move of each person's dates. Every difference in days between two dates of a person stays.
 *
 * - offsets: the first injury of each person falls on 1 January 2000;
 * - shifted: by -n to n days, never 0, chosen by the key for each person.
 *
 * Where a person has dates known to the month only, the next move is taken under which each of them stands on the
 * same day of a month that is as long; so a record keeps the days it may stand for.
 */
export function calendarsOf(
  tables: CohortTables,
  { settings, names }: { readonly settings: ShareSettings; readonly names: KeyedNames },
): Calendars {
  const persons = datesOfPersons(tables);
  return new Map(persons.map((dates) => [dates.person, moveOf(dates, { settings, names })]));
}

function moveOf(
  dates: DatesOfPerson,
  { settings, names }: { readonly settings: ShareSettings; readonly names: KeyedNames },
): number {
  const { dates: leave, shiftDays } = settings;
  if (leave === "as-they-are") return 0;
  if (leave === "offsets") return firstFitting(dates, offsetsFrom(dates));
  const draw = names.numberOf("calendar", [dates.person], 2 * shiftDays);
  return firstFitting(dates, outwards(draw < shiftDays ? draw - shiftDays : draw - shiftDays + 1));
}

/** The first injury on 1 January 2000 or soon after; for a record of a century, from 1950 on. */
function* offsetsFrom({ firstInjury }: DatesOfPerson): Iterable<number> {
  for (const start of [dayNumber(dayZero), readable.first]) {
    for (let later = 0; later <= fourYears; later++) yield start + later - firstInjury;
  }
}

/** A move, then those next to it, ever further away; never no move at all. */
function* outwards(move: number): Iterable<number> {
  yield move;
  for (let away = 1; away <= 2 * fourYears; away++) {
    if (move + away !== 0) yield move + away;
    if (move - away !== 0) yield move - away;
  }
}

function firstFitting(dates: DatesOfPerson, moves: Iterable<number>): number {
  const { earliest, latest, toTheMonth } = dates;
  for (const move of moves) {
    const inRange = earliest + move >= readable.first && latest + move <= readable.last;
    if (inRange && toTheMonth.every((day) => sameInMonth(day, day + move))) return move;
  }
  throw new Error("The dates of one person lie so far apart that they cannot be moved. Check its dates.");
}

/** Whether two days stand on the same day of months of the same length. */
const sameInMonth = (one: number, other: number): boolean =>
  dateOfDay(one).slice(8) === dateOfDay(other).slice(8) && lengthOfMonth(one) === lengthOfMonth(other);

function lengthOfMonth(day: number): number {
  const first = dayNumber(`${dateOfDay(day).slice(0, 8)}01`);
  return dayNumber(`${dateOfDay(first + 31).slice(0, 8)}01`) - first;
}

function datesOfPersons(tables: CohortTables): readonly DatesOfPerson[] {
  const persons = personsOfInjuries(tables);
  const found = new Map<string, { injuries: number[]; all: number[]; toTheMonth: number[] }>();
  for (const person of persons.values()) found.set(person, { injuries: [], all: [], toTheMonth: [] });
  for (const name of injuryTables) {
    const columns = (schemas[name] as Table).fields.filter(({ kind }) => kind === "date");
    for (const { values } of tables[name]) {
      const dates = found.get(persons.get(values.injury_id) ?? "");
      for (const { name: column } of columns) {
        const date = (values as Values)[column];
        if (typeof date === "string") dates?.all.push(dayNumber(date));
      }
    }
  }
  for (const { values } of tables.injuries) {
    const dates = found.get(persons.get(values.injury_id)!)!;
    dates.injuries.push(dayNumber(values.injury_date));
    if (values.injury_date_precision === "month") dates.toTheMonth.push(dayNumber(values.injury_date));
    for (const milestone of milestones) {
      const date = values[`${milestone}_date`];
      if (date !== null && values[`${milestone}_precision`] === "month")
        dates.toTheMonth.push(dayNumber(date));
    }
  }
  return [...found].map(([person, { injuries, all, toTheMonth }]) => ({
    person,
    firstInjury: least(injuries),
    earliest: least(all),
    latest: -least(all.map((day) => -day)),
    toTheMonth,
  }));
}

const least = (days: readonly number[]): number =>
  days.reduce((one, other) => Math.min(one, other), Number.POSITIVE_INFINITY);
