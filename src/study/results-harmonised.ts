import { z } from "zod";
import { count, maybe, whole } from "./results-parts.js";

const statedBySite = z.strictObject({
  field: z.string().describe("Column of the sites table"),
  definition: z.string(),
  unit: z.string().nullable(),
  decides: z.boolean().describe("Whether it defines the milestone that is counted"),
  verdict: z
    .enum(["same", "differs", "some_not_stated", "not_stated", "not_in_words"])
    .describe(
      "same: every site states it alike; differs; some_not_stated: alike at those that state it; not_stated: at none; not_in_words: by keyed names of shared copies that differ, which is either another meaning or another key",
    ),
  ask: z.array(z.string()).describe("Sites to be asked, since they state nothing, or several things"),
  sites: z.array(z.strictObject({ site: z.string(), values: z.array(z.string()) })),
});

const numbers = z.strictObject({
  n: count,
  mean: maybe,
  standard_deviation: maybe,
  median: maybe,
  lower_quartile: maybe,
  upper_quartile: maybe,
});

const fieldBySite = z.strictObject({
  field: z.string(),
  table: z.string().nullable(),
  definition: z.string(),
  unit: z.string().nullable(),
  terms: z.array(z.string()).nullable(),
  blank_says: z.string().nullable(),
  verdict: z
    .enum(["everywhere", "not_everywhere", "coarser_somewhere", "nowhere"])
    .describe(
      "everywhere: recorded at every site; not_everywhere: at some sites of no injury; coarser_somewhere: some sites record a word that holds two of another's; nowhere",
    ),
  without: z
    .array(z.string())
    .describe("Sites at which it cannot be used, or only coarser: what needs it leaves them out"),
  sites: z.array(
    z.strictObject({
      site: z.string(),
      n: count,
      known: count,
      share: maybe.describe("known / n"),
      counts: z.array(z.strictObject({ code: z.string(), n: count })).nullable(),
      numbers: numbers.nullable(),
    }),
  ),
});

const schedules = z.strictObject({
  verdict: z.enum(["alike", "unlike", "not_known"]),
  because: z
    .array(z.enum(["days_between", "span_days", "wide_share"]))
    .describe(
      "days_between: medians further apart than half as much again; span_days: median spans of a return more than 14 days apart; wide_share: shares of returns known to more than 14 days only more than 0.3 apart",
    ),
  sites: z.array(
    z.strictObject({
      site: z.string(),
      seen: count,
      contacts: numbers,
      days_between: numbers,
      longest_gap: numbers,
      returns: count,
      span_days: numbers,
      wide_share: maybe,
    }),
  ),
});

const losses = z.strictObject({
  horizon_days: whole,
  verdict: z.enum(["alike", "unlike", "not_known"]),
  lowest: maybe.describe("Lowest share lost, of sites with enough injuries"),
  highest: maybe,
  sites: z.array(
    z.strictObject({
      site: z.string(),
      analysed: count,
      lost: count,
      share: maybe,
      completeness: maybe,
      closing_day_known: z.boolean(),
    }),
  ),
});

/** What the sites mean, record, how they see their people and whom they lose, beside one another: told before any answer. */
export const harmonised = z.strictObject({
  sites: z.array(z.strictObject({ site: z.string(), injuries: count, analysed: count, persons: count })),
  schedules,
  losses,
  stated: z.array(statedBySite),
  fields: z.array(fieldBySite),
});
export type Harmonised = z.infer<typeof harmonised>;
