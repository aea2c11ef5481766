import type { TypedRow } from "../../schema/cells.js";
import { dayNumber, daysBetween } from "../../schema/dates.js";
import type { InjuryRow } from "../../schema/injuries.js";
import { type Milestone, milestones } from "../../schema/terms.js";
import { askAboutColumn, exceedsChance } from "./about-column.js";
import { byKey, type LinkRule } from "./link-rule.js";
import { distanceColumn, isExact, type Reading } from "./readings.js";

type Injury = TypedRow<InjuryRow>;

/** Fewer values than this do not show a habit (our choice). */
const enough = 30;
/** Last digits 0 and 5 are two of ten. */
const roundDigits = 0.2;

/** Distances of a column, or of one rater, that end in 0 or 5 more often than chance gives. */
export const digitsPreferred: LinkRule = function* ({ tables }) {
  for (const rows of byKey(tables.imaging.filter(isExact), distanceColumn).values()) {
    yield* askAboutDigits(rows, { column: "distance_mm", found: null });
    const raters = byKey(
      rows.filter(({ values }) => values.rater !== null),
      ({ values }) => values.rater!,
    );
    if (raters.size < 2) continue;
    for (const [rater, own] of raters) yield* askAboutDigits(own, { column: "rater", found: rater });
  }
};

function* askAboutDigits(
  rows: readonly Reading[],
  about: { readonly column: string; readonly found: string | null },
) {
  const values = rows.map(({ values }) => values.distance_mm);
  const perMillimetre = isMostlyInTenths(values) ? 10 : 100;
  const count = values.filter((value) => Math.round(value * perMillimetre) % 5 === 0).length;
  const n = values.length;
  if (n < enough || !exceedsChance({ count, n, share: roundDigits })) return;
  yield askAboutColumn(rows[0]!, { ...about, code: "distance-digits-preferred", facts: { count, n } });
}

const isMostlyInTenths = (values: readonly number[]): boolean =>
  values.filter((value) => Math.abs(value * 10 - Math.round(value * 10)) < 1e-9).length * 2 >= values.length;

/** A return whose day, and that of the injury, are known. */
interface Return {
  readonly row: Injury;
  readonly date: string;
  /** Days since the injury. */
  readonly days: number;
}

/** Returns found before, by the rows they were found in: three rules look at the same. */
const found = new WeakMap<readonly Injury[], Map<Milestone, readonly Return[]>>();

function returnsOf(rows: readonly Injury[], milestone: Milestone): readonly Return[] {
  const ofRows = found.get(rows) ?? new Map<Milestone, readonly Return[]>();
  found.set(rows, ofRows);
  const returns = ofRows.get(milestone) ?? returnsIn(rows, milestone);
  ofRows.set(milestone, returns);
  return returns;
}

function returnsIn(rows: readonly Injury[], milestone: Milestone): readonly Return[] {
  const returns: Return[] = [];
  for (const row of rows) {
    const { values } = row;
    const date = values[`${milestone}_date`];
    const isToTheDay =
      (values[`${milestone}_precision`] ?? "day") === "day" &&
      (values.injury_date_precision ?? "day") === "day";
    if (date !== null && isToTheDay) returns.push({ row, date, days: daysBetween(values.injury_date, date) });
  }
  return returns;
}

/** Weeks that people say when they do not remember the day (common practice, no source). */
const rememberedWeeks = [6, 8, 12, 13, 26] as const;
/** Returns within so many days of such a week are what those on its day are counted among: seven days in all. */
const around = 3;
const enoughAround = 20;

/** Returns on the very day of week 6, 8, 12, 13 or 26 more often than one in seven of those around it. */
export const returnsOnWeeks: LinkRule = function* ({ tables }) {
  for (const milestone of milestones) {
    const near = returnsOf(tables.injuries, milestone).filter(({ days }) => daysFromWeek(days) <= around);
    const n = near.length;
    const count = near.filter(({ days }) => daysFromWeek(days) === 0).length;
    if (n < enoughAround || !exceedsChance({ count, n, share: 1 / 7 })) continue;
    const column = `${milestone}_date`;
    yield askAboutColumn(near[0]!.row, {
      code: "returns-heaped-on-weeks",
      column,
      found: null,
      facts: { count, n },
    });
  }
};

/** Days to the nearest of the remembered weeks. */
const daysFromWeek = (days: number): number =>
  rememberedWeeks.reduce(
    (least, week) => Math.min(least, Math.abs(days - 7 * week)),
    Number.POSITIVE_INFINITY,
  );

const weekdays = ["Thursday", "Friday", "Saturday", "Sunday", "Monday", "Tuesday", "Wednesday"] as const;
/** Days of the week and of the month are chosen among several, so that more is asked for than of one count alone. */
const errorsOfSeveral = 4;

/** Returns on one day of the week: days of the clinic rather than of the return? */
export const returnsOnOneWeekday: LinkRule = function* ({ tables }, { calendar }) {
  if (calendar === "per_person") return;
  for (const milestone of milestones) {
    const dated = returnsOf(tables.injuries, milestone);
    const n = dated.length;
    const counts = weekdays.map(() => 0);
    for (const { date } of dated) counts[dayOfWeek(date)]! += 1;
    const byDay = weekdays.map((name, day) => ({ name, count: counts[day]! }));
    const most = byDay.reduce((best, day) => (day.count > best.count ? day : best));
    if (n < enough || !exceedsChance({ count: most.count, n, share: 1 / 7 }, errorsOfSeveral)) continue;
    const facts = { count: most.count, n, weekday: most.name };
    yield askAboutColumn(dated[0]!.row, {
      code: "returns-heaped-on-weekday",
      column: `${milestone}_date`,
      found: null,
      facts,
    });
  }
};

/** Days since Thursday, the first day of the count of days. */
const dayOfWeek = (date: string): number => ((dayNumber(date) % 7) + 7) % 7;

/** Twice twelve days a year. */
const firstOrFifteenth = 24 / 365.25;

/** Returns on the first or the fifteenth of a month: dates that were made up from a month? */
export const returnsOnFirstOrFifteenth: LinkRule = function* ({ tables }, { calendar }) {
  if (calendar === "per_person") return;
  for (const milestone of milestones) {
    const dated = returnsOf(tables.injuries, milestone);
    const n = dated.length;
    const count = dated.filter(({ date }) => date.endsWith("-01") || date.endsWith("-15")).length;
    if (n < enough || !exceedsChance({ count, n, share: firstOrFifteenth }, errorsOfSeveral)) continue;
    yield askAboutColumn(dated[0]!.row, {
      code: "returns-heaped-in-month",
      column: `${milestone}_date`,
      found: null,
      facts: { count, n },
    });
  }
};
