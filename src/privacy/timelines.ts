import type { CohortTables } from "../schema/cohort-tables.js";
import { dayNumber, type IsoDate } from "../schema/dates.js";
import type { InjuryRow } from "../schema/injuries.js";
import { milestones } from "../schema/terms.js";
import { personOf } from "./persons.js";

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
export function lastKnownDay(row: InjuryRow): number {
  const dates = [
    row.injury_date,
    row.last_contact_date,
    row.new_rupture_date,
    row.gave_up_date,
    ...milestones.flatMap((milestone) => [
      row[`${milestone}_date`],
      row[`${milestone}_not_before`],
      row[`${milestone}_not_after`],
    ]),
  ];
  return Math.max(
    ...dates.filter((date): date is IsoDate => date !== null && date !== undefined).map(dayNumber),
  );
}

/** The last visit, scan or start of a treatment of each injury. */
export function seenByInjury({ treatments, imaging, visits }: CohortTables): ReadonlyMap<string, number> {
  const last = new Map<string, number>();
  const see = (injury: string, date: IsoDate) =>
    last.set(injury, Math.max(last.get(injury) ?? Number.NEGATIVE_INFINITY, dayNumber(date)));
  for (const { values } of treatments) see(values.injury_id, values.start_date);
  for (const { values } of [...imaging, ...visits]) see(values.injury_id, values.date);
  return last;
}
