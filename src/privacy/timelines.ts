import type { CohortTables } from "../schema/cohort-tables.js";
import { dayNumber } from "../schema/dates.js";
import type { InjuryRow } from "../schema/injuries.js";
import { datedColumnsOf, datesIn } from "./dated-columns.js";
import { personNamer, type Values } from "./persons.js";

/** What the tables tell about the days of one person, as day numbers (1970-01-01 = 0). */
export interface Timeline {
  readonly person: string;
  readonly site: string | null;
  readonly firstInjury: number;
  /** How the day of the first injury is known. */
  readonly firstPrecision: InjuryRow["injury_date_precision"];
  /** Last day on which the person was seen or heard of; ends of treatments, which may be planned, do not count. */
  readonly lastSeen: number;
}

/** The days of each person, in the order in which persons are first met. */
export function timelinesOf(tables: CohortTables): readonly Timeline[] {
  const seen = seenByInjury(tables);
  const personOf = personNamer(tables);
  const timelines = new Map<string, Timeline>();
  for (const { values } of tables.injuries) {
    const person = personOf(values);
    const injury = dayNumber(values.injury_date);
    const lastSeen = Math.max(lastKnownDay(values), seen.get(values.injury_id) ?? injury);
    const before = timelines.get(person);
    const isFirst = before === undefined || injury < before.firstInjury;
    timelines.set(person, {
      person,
      site: values.site_id,
      firstInjury: isFirst ? injury : before.firstInjury,
      firstPrecision: isFirst ? values.injury_date_precision : before.firstPrecision,
      lastSeen: Math.max(lastSeen, before?.lastSeen ?? lastSeen),
    });
  }
  return [...timelines.values()];
}

/** The timelines of each site, in the order in which sites are first met. */
export function timelinesBySite(
  timelines: readonly Timeline[],
): ReadonlyMap<string | null, readonly Timeline[]> {
  const bySite = new Map<string | null, Timeline[]>();
  for (const timeline of timelines) {
    const own = bySite.get(timeline.site);
    if (own === undefined) bySite.set(timeline.site, [timeline]);
    else own.push(timeline);
  }
  return bySite;
}

/** Last day on which a row of the injuries tells anything of the person. */
export const lastKnownDay = (row: InjuryRow): number => Math.max(...datesIn(row, ofInjury).map(dayNumber));

const ofInjury = datedColumnsOf("injuries");
/** Dates of things that were seen or done; ends may be planned. */
const seenIn = (table: "treatments" | "imaging" | "visits") =>
  datedColumnsOf(table).filter(({ when }) => when === "course");
const seenColumns = {
  treatments: seenIn("treatments"),
  imaging: seenIn("imaging"),
  visits: seenIn("visits"),
};

/** The last visit, scan or start of a treatment of each injury. */
export function seenByInjury(tables: CohortTables): ReadonlyMap<string, number> {
  const last = new Map<string, number>();
  for (const table of ["treatments", "imaging", "visits"] as const) {
    for (const { values } of tables[table]) {
      const before = last.get(values.injury_id) ?? Number.NEGATIVE_INFINITY;
      last.set(values.injury_id, Math.max(before, ...seenDays(table, values)));
    }
  }
  return last;
}

/** The days on which a row of a table tells that something was seen or done. */
export const seenDays = (table: keyof typeof seenColumns, values: Values): readonly number[] =>
  datesIn(values, seenColumns[table]).map(dayNumber);
