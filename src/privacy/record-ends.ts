import { dayNumber } from "../schema/dates.js";
import type { KeyedNames } from "./keyed-names.js";
import type { ShareSettings } from "./settings.js";
import { type Timeline, timelinesBySite } from "./timelines.js";

/** How far the record of a person is told. */
export interface RecordEnd {
  /** Last day of which anything is told, as a day number; infinite where real dates leave. */
  readonly day: number;
  /** Days from that day to the close, known to the holder of the key alone. */
  readonly drawnBack: number;
  /** Whether the close lies within reach: the person was last seen within the window before it. */
  readonly isAtClose: boolean;
  /** Whether the days of the person's contacts are told to the week only. */
  readonly toTheWeek: boolean;
  /** Days from the first injury of the site to its close. */
  readonly daysOfSite: number;
  /** Whether the first injury is among the first of its site, within the window. */
  readonly isEarly: boolean;
}

export type RecordEnds = ReadonlyMap<string, RecordEnd>;

/** As many people of a site, and this share of them, last seen on one day: a day on which everybody was called, say. */
const fewestOfHeap = 3;
const shareOfHeap = 0.05;

/** Days to a possible day of injury once the weekday is known, with room for holidays: ten where seven would do. */
const daysToAPossibleOne = 10;

/**
 * A last day for the record of each person, in place of the one day on which the data were closed. Whoever is still
 * followed then has the closing date as last contact, and that date is often known, so that the day of the injury
 * would follow. Each record ends a number of days before the close instead, from 0 to one less than the window, drawn
 * by the key for each person whatever the person's data are. To end a record on a day that has nothing to do with its
 * course is censoring that cannot bias an estimate; it costs the follow-up of those days.
 *
 * - the close of a site is its last day, or the stated close if that is earlier; a day on which many of a site's people
 *   were last seen is a close for these;
 * - the record is told for at most so long that the first injury could have happened on any day of a window, even for
 *   somebody who knows when the site's first and last patients were seen;
 * - where the close lies within reach, or weekdays would leave few days, contacts are told to the week (`toTheWeek`).
 *
 * Windows are nested (28 days by powers of two) and drawn by one number, so that copies made with several windows and
 * one key do not narrow each other.
 */
export function recordEndsOf(
  timelines: readonly Timeline[],
  { settings, names }: { readonly settings: ShareSettings; readonly names: KeyedNames },
): RecordEnds {
  const window = settings.closingWindow;
  const sites = sitesOf(timelines, settings.closedOn);
  return new Map(
    timelines.map(({ person, site, firstInjury, lastSeen }): [string, RecordEnd] => {
      const { first, last, heaps } = sites.get(site)!;
      const daysOfSite = last - first;
      const drawnBack = names.numberOf("closing", [person], window);
      const isHeaped = heaps.has(lastSeen);
      const close = isHeaped ? lastSeen : last;
      const day = Math.min(close - drawnBack, firstInjury + daysOfSite - (window - 1));
      const spare = daysOfSite - (Math.min(lastSeen, day) - firstInjury);
      const isAtClose = isHeaped || lastSeen > last - window;
      const toTheWeek = isAtClose || spare < daysToAPossibleOne * window;
      const isEarly = firstInjury - first < window;
      return [person, { day, drawnBack, isAtClose, toTheWeek, daysOfSite, isEarly }];
    }),
  );
}

interface DaysOfSite {
  readonly first: number;
  readonly last: number;
  readonly heaps: ReadonlySet<number>;
}

function sitesOf(
  timelines: readonly Timeline[],
  closedOn: string | null,
): ReadonlyMap<string | null, DaysOfSite> {
  const close = closedOn === null ? Number.POSITIVE_INFINITY : dayNumber(closedOn);
  return new Map([...timelinesBySite(timelines)].map(([site, own]) => [site, daysOfSite(own, close)]));
}

function daysOfSite(timelines: readonly Timeline[], close: number): DaysOfSite {
  const lastSeen = new Map<number, number>();
  let [first, last] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const timeline of timelines) {
    first = Math.min(first, timeline.firstInjury);
    last = Math.max(last, timeline.lastSeen);
    lastSeen.set(timeline.lastSeen, (lastSeen.get(timeline.lastSeen) ?? 0) + 1);
  }
  const fewest = Math.max(fewestOfHeap, shareOfHeap * timelines.length);
  const heaps = [...lastSeen].filter(([, people]) => people >= fewest).map(([day]) => day);
  return { first, last: Math.min(last, close), heaps: new Set(heaps) };
}
