import type { CohortTables } from "../schema/cohort-tables.js";
import { daysBetween } from "../schema/dates.js";
import { milestones } from "../schema/terms.js";
import { contactDaysOf, movesThatFit, openDaysOf } from "./clinic-days.js";
import type { Disclosure } from "./disclosure.js";
import { personNamer } from "./persons.js";
import type { RecordEnd, RecordEnds } from "./record-ends.js";
import type { ShareSettings } from "./settings.js";
import { type Timeline, timelinesBySite, timelinesOf } from "./timelines.js";

const week = 7;

/** Days either side by which a contact told to the week may have been moved. */
const halfWeek = 3;

/** What is known of a site from elsewhere: the day of its first injury, and on which days it is open. */
interface KnownSite {
  readonly first: number;
  readonly isOpen: (day: number) => boolean;
}

interface Told {
  readonly end: RecordEnd;
  readonly site: KnownSite;
  readonly contacts: readonly number[];
  readonly settings: ShareSettings;
}

/**
 * How many days are possible for a person's first injury to somebody who knows when the first and the last patients of
 * the site were seen and on which weekdays, or which of their kind in the month, it is open: a whole window where the
 * close lies within reach of the record; else every day on which the record fits between the two, a seventh of them where
 * the weekday can be told; of either only those that put the contacts on days on which the site is open.
 */
function possibleDays(timeline: Timeline, { end, site, contacts, settings }: Told): number {
  if (settings.dates === "as-they-are") return 1;
  const spare = end.daysOfSite - (timeline.lastSeen - timeline.firstInjury);
  const earlier = timeline.firstInjury - site.first;
  const reach = end.isAtClose
    ? { from: end.drawnBack - settings.closingWindow + 1, to: end.drawnBack }
    : { from: -earlier, to: spare - earlier };
  const eitherSide = end.toTheWeek ? halfWeek : 0;
  const onOpenDays = movesThatFit(contacts, { reach: { ...reach, eitherSide }, isOpen: site.isOpen });
  if (end.isAtClose) return Math.min(settings.closingWindow, onOpenDays);
  const fitting = spare + 1;
  const known =
    settings.dates === "shifted" ? Math.min(fitting, settings.shiftDays + settings.closingWindow) : fitting;
  return Math.min(onOpenDays, end.toTheWeek ? known : Math.floor(known / week));
}

/** The sites as the tables show them to somebody who worked there. */
function knownSites(tables: CohortTables): ReadonlyMap<string | null, KnownSite> {
  const contacts = contactDaysOf(tables);
  return new Map(
    [...timelinesBySite(timelinesOf(tables))].map(([site, timelines]) => [
      site,
      {
        first: timelines.reduce(
          (first, { firstInjury }) => Math.min(first, firstInjury),
          Number.POSITIVE_INFINITY,
        ),
        isOpen: openDaysOf(timelines.flatMap(({ person }) => contacts.get(person) ?? [])),
      },
    ]),
  );
}

/** What the dates of a copy still tell about the day of an injury, and what it cost. */
export function injuryDaysDisclosed(
  {
    before,
    told,
    ends,
  }: { readonly before: CohortTables; readonly told: CohortTables; readonly ends: RecordEnds },
  settings: ShareSettings,
): Disclosure["injury_days"] {
  const timelines = timelinesOf(told);
  const sites = knownSites(before);
  const contacts = contactDaysOf(told);
  const possible = timelines.map((timeline) =>
    possibleDays(timeline, {
      end: ends.get(timeline.person)!,
      site: sites.get(timeline.site)!,
      contacts: contacts.get(timeline.person) ?? [],
      settings,
    }),
  );
  const window = settings.closingWindow;
  const steps = [
    [1, 1],
    [2, window - 1],
    [window, 2 * window - 1],
    [2 * window, null],
  ] as const;
  const isProtected = settings.dates !== "as-they-are";
  const inReach = timelines.filter(({ person }) => isProtected && ends.get(person)!.isAtClose);
  const toTheWeek = timelines.filter(({ person }) => isProtected && ends.get(person)!.toTheWeek);
  return {
    window,
    fewest: possible.length === 0 ? null : Math.min(...possible),
    people: steps.map(([from, to]) => ({
      from,
      to,
      people: possible.filter((days) => days >= from && (to === null || days <= to)).length,
    })),
    people_in_reach_of_close: inReach.length,
    people_to_the_week: toTheWeek.length,
    people_with_months: peopleWithMonths(before),
    injuries_after_their_record: before.injuries.length - told.injuries.length,
    returns_after_their_record: milestones.map((milestone) => ({
      milestone,
      before: datedOrBounded(before, milestone),
      in_copy: datedOrBounded(told, milestone),
    })),
    days_followed: { before: daysFollowed(before), in_copy: daysFollowed(told) },
  };
}

function datedOrBounded({ injuries }: CohortTables, milestone: (typeof milestones)[number]): number {
  return injuries.filter(
    ({ values }) => values[`${milestone}_date`] !== null || values[`${milestone}_not_after`] !== null,
  ).length;
}

const daysFollowed = ({ injuries }: CohortTables): number =>
  injuries.reduce(
    (sum, { values }) => sum + Math.max(0, daysBetween(values.injury_date, values.last_contact_date)),
    0,
  );

function peopleWithMonths(tables: CohortTables): number {
  const rough = tables.injuries.filter(
    ({ values }) =>
      values.injury_date_precision === "month" ||
      milestones.some((milestone) => values[`${milestone}_precision`] === "month"),
  );
  return new Set(rough.map(({ values }) => personNamer(tables)(values))).size;
}
