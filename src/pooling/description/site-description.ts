import { z } from "zod";
import type { Exact } from "../../study/exact-results.js";
import { count, estimate, maybe, whole } from "../../study/results-parts.js";

const numbers = z
  .strictObject({
    n: count.describe("Values"),
    mean: maybe,
    standard_deviation: maybe,
    median: maybe,
    lower_quartile: maybe,
    upper_quartile: maybe,
  })
  .describe("How the values of a number are distributed; its least and its greatest value are not told");

const counts = z.array(z.strictObject({ code: z.string(), n: count }));

const stated = z.strictObject({
  field: z.string().describe("Column of the sites table"),
  definition: z.string(),
  unit: z.string().nullable(),
  values: z
    .array(z.string())
    .describe("What is stated, each text once; none: it is not stated and has to be asked"),
});

const field = z.strictObject({
  field: z.string(),
  table: z.string().nullable().describe("The table that holds it; null for what is derived from several"),
  definition: z.string(),
  unit: z.string().nullable().describe("UCUM code"),
  terms: z.array(z.string()).nullable().describe("The words that it may hold; null where it holds others"),
  blank_says: z
    .string()
    .nullable()
    .describe("What a blank says, where it says something: then a blank is no gap"),
  n: count.describe("Analysed injuries"),
  known: count.describe("Of these, with a value that is not 'unknown' or 'not stated'"),
  counts: counts.nullable().describe("How often each term occurs; null where there are none to count"),
  numbers: numbers.nullable().describe("null for what is no number"),
});

/** What a site is, told before anything that it found: definitions, practice, fields, schedule, returns, loss. */
export const siteDescription = z
  .strictObject({
    site: z.string(),
    injuries: count.describe("Injury rows that were used"),
    analysed: count.describe("Injuries that answer the question"),
    persons: count.describe("People among the analysed"),
    stated: z.array(stated).describe("What the site states of itself, one entry a column of the sites table"),
    fields: z
      .array(field)
      .describe("The fields that the question uses, the basis of the grade and the way to the site"),
    imaging: z
      .strictObject({
        readings: count.describe("Rows of the imaging table"),
        injuries: count.describe("Injuries with a reading"),
        modalities: counts,
        raters: whole.nullable().describe("Different raters; null where none is named"),
        readings_with_rater: count,
        read_by_several: count.describe("Injuries read by more than one rater, or more than once by one"),
        blinded: counts.describe("Readings by whether the rater was unaware of the treatment"),
      })
      .nullable()
      .describe("null without readings"),
    schedule: z
      .strictObject({
        seen: count.describe(
          "Injuries with a contact of known day after the first day: visit or first visit",
        ),
        contacts: numbers.describe("Contacts an injury"),
        days_between: numbers.describe("Days from one contact of an injury to the next"),
        longest_gap: numbers.describe("Longest time between two contacts of an injury, days"),
      })
      .describe("When people were seen, from the visits and the first visit"),
    returns: z
      .strictObject({
        milestone: z.string(),
        n: count.describe("Injuries that returned"),
        known: counts.describe("How exactly the return is known: day, week, month, visits"),
        wide: count.describe("Returns known to a span of more than 14 days only"),
        wide_share: maybe,
        span_days: numbers.describe("Width of the span between which a return is known to lie; 0 for a day"),
      })
      .describe("How exactly returns are known"),
    ends: counts.describe("How the records ended: milestone, censored, and each competing end"),
    loss: z
      .strictObject({
        horizon_days: whole,
        closing_day_known: z
          .boolean()
          .describe(
            "Without the day on which the data were closed, whoever is still followed counts as lost",
          ),
        lost: count.describe("Last seen before the horizon and before the data were closed, without any end"),
        share: maybe.describe("lost / analysed"),
        completeness: maybe.describe("Observed over possible time at risk up to the horizon, a share"),
      })
      .describe("Loss to follow-up"),
    follow_up_days: estimate.describe("Reverse product-limit median of the follow-up, days"),
    small_cells: z
      .strictObject({ choice: z.enum(["written", "leave-out"]), smallest: whole })
      .describe("Whether counts with fewer people than the smallest cell behind them are told"),
  })
  .describe("Description of a site");

export type SiteDescription = z.infer<typeof siteDescription>;
/** A description in which every count is told. */
export type ExactDescription = Exact<SiteDescription>;
export type DescribedField = SiteDescription["fields"][number];
export type ExactField = ExactDescription["fields"][number];
export type Numbers = SiteDescription["schedule"]["contacts"];
export type ExactNumbers = ExactDescription["schedule"]["contacts"];
