import { z } from "zod";
import { cohortRow } from "./results-cohort.js";
import { count, maybe, reason, whole } from "./results-parts.js";

const missingField = z.strictObject({
  field: z.string(),
  in_the_study: z.boolean().describe("The study compares by it or adjusts for it"),
  blank: count.describe("Nothing is recorded"),
  unknown: count.describe("Recorded as unknown or not stated"),
  missing: count.describe("blank + unknown"),
  share: maybe.describe("missing / n"),
});

const missingGroup = z.strictObject({
  label: z.string(),
  n: count,
  missing: z
    .array(z.strictObject({ n: count, share: maybe }))
    .describe("Without a value, in the order of missing.fields"),
});

/** What is not recorded of the analysed injuries. A return that is not reached yet is censored, not missing. */
export const missingValues = z.strictObject({
  n: count.describe("Analysed injuries"),
  fields: z.array(missingField),
  never_filled: z
    .array(z.string())
    .describe("Fields that no analysed injury has: not collected, and not counted"),
  complete: count.describe("Injuries with every one of the fields"),
  groupings: z.array(z.strictObject({ by: z.string(), groups: z.array(missingGroup) })),
  patterns: z
    .array(z.strictObject({ fields: z.array(z.string()), n: count }))
    .describe(
      "Fields missing together, the most frequent first, twenty at most; no fields: nothing is missing",
    ),
  other_patterns: z.strictObject({ patterns: whole, n: count }).describe("Those beyond the twenty"),
});

const lostGroup = z.strictObject({
  label: z.string(),
  n: count,
  lost: count,
  share: maybe,
  completeness: maybe.describe("Observed over possible time at risk up to the horizon, a share"),
});

/** Who was lost before the horizon, compared with who stayed: a description, not a test. */
export const lostToFollowUp = z.strictObject({
  horizon_days: whole,
  closing_day_known: z
    .boolean()
    .describe("Without the day on which the data were closed, whoever is still followed counts as lost"),
  n: count,
  lost: count.describe("Last seen before the horizon and before the data were closed, without any end"),
  share: maybe,
  completeness: maybe,
  groupings: z.array(z.strictObject({ by: z.string(), groups: z.array(lostGroup) })),
  compared: z.array(
    z.strictObject({
      by: z.string().nullable().describe("null for all analysed injuries"),
      group: z.string(),
      lost: count,
      stayed: count,
      rows: z
        .array(cohortRow)
        .describe("groups: lost, stayed; differences of the lost from those who stayed, on the first row"),
      reason: reason.describe("Why there are no rows"),
    }),
  ),
});

/** What became of the site's answers to earlier queries: read = blank + used + repeated + not used. */
export const answers = z.strictObject({
  file: z.string(),
  read: count,
  blank: count,
  used: z.strictObject({ stands: count, change: count, "leave-out": count }),
  repeated: count,
  not_used: z.strictObject({ stale: count, contradictory: count, unreadable: count }),
  cells_changed: count,
  rows_left_out: count,
});
