import { z } from "zod";
import { effectMethods, effectUnits, measureKeys } from "./measures/index.js";
import { count, estimate, leftOutReasons, maybe } from "./results-parts.js";

export const effect = z.strictObject({
  id: z.string(),
  measure: z.enum(measureKeys),
  compared: z.string(),
  reference: z.string(),
  adjusted_for: z.array(z.string()).describe("Empty for a crude effect"),
  at_day: maybe.describe("Landmark or horizon, days"),
  main: z.boolean().describe("Shown in the plain words and the forest"),
  unit: z.enum(effectUnits),
  estimate,
  level: z.number(),
  standard_error: maybe.describe(
    "Of a product-limit method the large-sample error, before the small-sample factor of its interval; otherwise that of its interval; on the log scale for a ratio",
  ),
  p: maybe,
  n: z.strictObject({ compared: count, reference: count }),
  events: z
    .strictObject({ compared: count, reference: count })
    .describe(
      "Returns by at_day, or during all of the follow-up where the measure has no day; where returns stay between two days, those known to have come by then",
    ),
  method: z.enum(effectMethods),
  clustered: z.boolean().describe("Whether the interval allows for several injuries of one person"),
  strata_used: z
    .array(z.string())
    .describe("Strata that an average over strata rests on; empty for other effects"),
  left_out: z.array(
    z.strictObject({
      stratum: z.string(),
      n: count,
      reason: z.enum(leftOutReasons),
    }),
  ),
});
export type EffectResult = z.infer<typeof effect>;
