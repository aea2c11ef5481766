import { closingOf } from "../cohort/close.js";
import { isCompeting, type OutcomeRecord } from "../cohort/record.js";
import { daysBetween } from "../schema/dates.js";
import { completenessOfFollowUp, followUpMedian } from "../statistics/index.js";
import { countsBy } from "./account.js";
import { withoutClusters } from "./columns.js";
import { estimateOfFigures } from "./estimates.js";
import type { ExactResults } from "./exact-results.js";
import type { Group } from "./groups.js";
import type { Specification } from "./specification.js";
import { daysOfMonth } from "./units-of-time.js";

type Bounds = Pick<Specification, "horizonDay" | "question">;

/** How long people were followed, how completely, how follow-up ended and how exactly the milestones are known. */
export function followUpOf(
  { records, columns }: Group,
  { level, ownCalendars, ...bounds }: Bounds & Pick<Specification, "level" | "ownCalendars">,
): ExactResults["follow_up"] {
  const milestones = records.filter(({ end }) => end === "milestone");
  const competing = records.filter(({ end }) => isCompeting(end));
  const dated = milestones.filter(({ milestone }) => milestone.known === "day");
  return {
    n: records.length,
    milestones: milestones.length,
    competing: countsBy(competing, ({ end }) => end),
    censored: records.length - milestones.length - competing.length,
    median_days: estimateOfFigures(followUpMedian(withoutClusters(columns.timeToEvent), { level })),
    recruited: recruitedOf(records, ownCalendars),
    person_months: records.reduce((sum, { time, entry }) => sum + time - Math.max(0, entry), 0) / daysOfMonth,
    not_back_days: rangeOf(records.filter(({ end }) => end === "censored").map(({ time }) => time)),
    completeness: completenessOf(records, bounds),
    known: countsBy(records, ({ milestone }) => milestone.known),
    whole_weeks: {
      milestones: dated.length,
      on_whole_weeks: dated.filter(({ time }) => time % 7 === 0).length,
    },
  };
}

/** The months in which the first and the last injury come; none where dates are not those of one calendar. */
function recruitedOf(
  records: readonly OutcomeRecord[],
  ownCalendars: boolean,
): ExactResults["follow_up"]["recruited"] {
  if (records.length === 0 || ownCalendars) return null;
  const days = records.map(({ clockStart }) => clockStart).sort();
  return { from: days[0]!.slice(0, 7), to: days.at(-1)!.slice(0, 7) };
}

const rangeOf = (days: readonly number[]): ExactResults["follow_up"]["not_back_days"] =>
  days.length === 0
    ? null
    : {
        shortest: days.reduce((least, day) => Math.min(least, day)),
        longest: days.reduce((most, day) => Math.max(most, day)),
      };

/** Days that an injury could have been followed within the horizon; the day on which the data of its site were closed bounds them. */
export function possibleDays(record: OutcomeRecord, { horizonDay, question }: Bounds): number {
  const closing = closingOf(record, question);
  return closing === null ? horizonDay : Math.min(horizonDay, daysBetween(record.clockStart, closing));
}

/** Observed over possible days at risk within the horizon. */
export function completenessOf(records: readonly OutcomeRecord[], bounds: Bounds): number | null {
  const { horizonDay: horizon } = bounds;
  const times = records.map(({ time }) => Math.min(time, horizon));
  const events = records.map(({ end, time }) => (end === "censored" && time < horizon ? 0 : 1));
  const potential = records.map((record, row) => Math.max(times[row]!, possibleDays(record, bounds)));
  return completenessOfFollowUp({ times, events, potential }).share.value;
}
