import { z } from "zod";
import { count, maybe, reason, whole } from "./results-parts.js";

/** The difference of the shares back of two groups over time. */
export const differenceOverTime = z
  .strictObject({
    compared: z.string(),
    reference: z.string(),
    adjusted_for: z.array(z.string()).describe("Empty for groups as they are"),
    strata_used: z.array(z.string()),
    n: z.strictObject({ compared: count, reference: count }).describe("Injuries in the strata used"),
    last_day: z.number().describe("The horizon, or the last day to which both groups are followed"),
    points: z
      .array(
        z.strictObject({
          day: z.number(),
          difference: z.number().describe("Share back, compared less reference"),
          lower: z.number().describe("Limit of this day alone"),
          upper: z.number(),
          band_lower: maybe.describe("Limit of the band that holds the difference on all of these days"),
          band_upper: maybe,
        }),
      )
      .describe("Days on which somebody was back, thinned evenly where there are many, and the landmarks"),
    critical_value: maybe.describe("By which the standard errors of the band are multiplied"),
    p: maybe.describe("Of no difference on any of these days"),
    draws: whole,
    clustered: z.boolean(),
    reason: reason.describe("Why there is no band, or no difference"),
  })
  .describe("Difference of the shares back over time, with a band");
export type DifferenceOverTime = z.infer<typeof differenceOverTime>;
