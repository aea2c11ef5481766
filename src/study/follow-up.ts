import type { OutcomeRecord } from "../cohort/record.js";
import { daysBetween } from "../schema/dates.js";
import { completenessOfFollowUp, followUpMedian } from "../statistics/index.js";
import { countsBy } from "./account.js";
import { estimateOfFigures } from "./estimates.js";
import type { ExactResults } from "./exact-results.js";
import { timeToEventOf } from "./groups.js";
import type { Plan } from "./plan.js";
import { daysOf } from "./question-of.js";

/** How long people were followed, how completely, how follow-up ended and how exactly the milestones are known. */
export function followUpOf(records: readonly OutcomeRecord[], plan: Plan): ExactResults["follow_up"] {
  const milestones = records.filter(({ end }) => end === "milestone");
  const competing = records.filter(({ end }) => end !== "milestone" && end !== "censored");
  const dated = milestones.filter(({ milestone }) => milestone.known === "day");
  const columns = timeToEventOf(records, false);
  return {
    n: records.length,
    milestones: milestones.length,
    competing: countsBy(competing, ({ end }) => end),
    censored: records.length - milestones.length - competing.length,
    median_days: estimateOfFigures(followUpMedian(columns, { level: plan.confidence_level })),
    completeness: completenessOf(records, plan),
    known: countsBy(records, ({ milestone }) => milestone.known),
    whole_weeks: {
      milestones: dated.length,
      on_whole_weeks: dated.filter(({ time }) => time % 7 === 0).length,
    },
  };
}

/** Days that an injury could have been followed within the horizon; the day on which the data were closed bounds them. */
export function possibleDays({ clockStart }: OutcomeRecord, plan: Plan): number {
  const horizon = daysOf(plan.horizon_weeks);
  const closing = plan.data.closed_on;
  return closing === undefined ? horizon : Math.min(horizon, daysBetween(clockStart, closing));
}

/** Observed over possible days at risk within the horizon. */
export function completenessOf(records: readonly OutcomeRecord[], plan: Plan): number | null {
  const horizon = daysOf(plan.horizon_weeks);
  const times = records.map(({ time }) => Math.min(time, horizon));
  const events = records.map(({ end, time }) => (end === "censored" && time < horizon ? 0 : 1));
  const potential = records.map((record, row) => Math.max(times[row]!, possibleDays(record, plan)));
  return completenessOfFollowUp({ times, events, potential }).share.value;
}
