import type { CohortTables } from "../schema/cohort-tables.js";
import { dateOfDay, dayNumber, type IsoDate } from "../schema/dates.js";
import { personsOfInjuries } from "./persons.js";

/** Days of contact of each person, as day numbers, each once. */
export type ContactDays = ReadonlyMap<string, readonly number[]>;

/** Days on which the clinic had a part: visits, scans and starts of treatments. */
export function contactDaysOf(tables: CohortTables): ContactDays {
  const { injuries, treatments, imaging, visits } = tables;
  const persons = personsOfInjuries(tables);
  const found = new Map<string, Set<number>>();
  const add = (injury: string, date: IsoDate | null) => {
    const person = persons.get(injury);
    if (date !== null && person !== undefined) {
      found.set(person, (found.get(person) ?? new Set()).add(dayNumber(date)));
    }
  };
  for (const { values } of injuries) add(values.injury_id, values.first_visit_date);
  for (const { values } of treatments) add(values.injury_id, values.start_date);
  for (const { values } of [...imaging, ...visits]) add(values.injury_id, values.date);
  return new Map([...found].map(([person, days]) => [person, [...days]]));
}

/** Weekday and which of its kind in the month, as "the first Tuesday": the rule by which most clinics have their days. */
function kindOf(day: number): string {
  const weekday = (((day + 4) % 7) + 7) % 7;
  const ofMonth = Number(dateOfDay(day).slice(8));
  return `${weekday} ${Math.ceil(ofMonth / 7)}`;
}

/** Slips that do not hide a rule: this share of contacts may lie on other days. */
const slips = 0.05;

/**
 * On which days a site is open, as its contacts show it: the fewest kinds of days that hold all but a few contacts.
 *
 * @param contacts days of contact of everybody at the site
 */
export function openDaysOf(contacts: readonly number[]): (day: number) => boolean {
  const times = new Map<string, number>();
  for (const day of contacts) times.set(kindOf(day), (times.get(kindOf(day)) ?? 0) + 1);
  const open = new Set<string>();
  let others = contacts.length;
  for (const [kind, n] of [...times].sort(([, one], [, other]) => other - one)) {
    if (others <= slips * contacts.length) break;
    open.add(kind);
    others -= n;
  }
  const known = new Map<number, boolean>();
  return (day) => {
    const before = known.get(day);
    if (before !== undefined) return before;
    const isOpen = open.has(kindOf(day));
    known.set(day, isOpen);
    return isOpen;
  };
}

/** By how many days a person's dates may be moved: from, to, and how far a day of contact may lie from where it is told. */
export interface Reach {
  readonly from: number;
  readonly to: number;
  readonly eitherSide: number;
}

/** How many of these moves put no more contacts on days on which the site is closed than there are now. */
export function movesThatFit(
  contacts: readonly number[],
  { reach, isOpen }: { readonly reach: Reach; readonly isOpen: (day: number) => boolean },
): number {
  const { from, to, eitherSide } = reach;
  const isNear = (day: number) => {
    for (let by = -eitherSide; by <= eitherSide; by++) if (isOpen(day + by)) return true;
    return false;
  };
  const closed = (move: number) => contacts.filter((day) => !isNear(day + move)).length;
  const now = closed(0);
  let fitting = 0;
  for (let move = from; move <= to; move++) if (closed(move) <= now) fitting += 1;
  return fitting;
}
