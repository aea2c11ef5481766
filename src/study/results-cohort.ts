import { z } from "zod";
import { count, maybe } from "./results-parts.js";

const cohortCell = z.strictObject({
  n: count.describe("Recorded in this group"),
  missing: count,
  count: count.nullable().describe("Rows with this term, for a term row"),
  share: maybe,
  mean: maybe,
  standard_deviation: maybe,
  median: maybe,
  lower_quartile: maybe,
  upper_quartile: maybe,
});
export type CohortCell = z.infer<typeof cohortCell>;

export const cohortRow = z.strictObject({
  variable: z.string(),
  term: z.string().nullable().describe("The term counted; null for a number"),
  unit: z.string().nullable(),
  overall: cohortCell,
  groups: z.array(cohortCell).describe("In the order of cohort.groups"),
  standardised_differences: z
    .array(maybe)
    .describe(
      "Each group against the reference, on the first row of a variable; null for the reference itself",
    ),
});
export type CohortRow = z.infer<typeof cohortRow>;

/** Who is in the compared groups. */
export const cohort = z.strictObject({
  by: z.string(),
  reference: z.string(),
  groups: z.array(z.strictObject({ label: z.string(), n: count })),
  overall: count,
  rows: z.array(cohortRow),
});
