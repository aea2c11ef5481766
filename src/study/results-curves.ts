import { z } from "zod";
import { competingEnds } from "../schema/terms.js";
import { count, estimate, maybe } from "./results-parts.js";

const curvePoint = z.strictObject({
  day: z.number(),
  at_risk: count,
  events: count,
  censored: count,
  competing: count.describe("Ends of the day after which the milestone can no longer be seen"),
  not_yet: z.number(),
  returned: z
    .number()
    .describe("Share back by the day; see share_back of the study for what it is a share of"),
  standard_error: maybe,
  returned_lower: maybe,
  returned_upper: maybe,
});
export type CurvePoint = z.infer<typeof curvePoint>;

const otherEnd = z
  .strictObject({
    end: z.enum(competingEnds),
    n: count,
    points: z
      .array(z.strictObject({ day: z.number(), share: z.number(), lower: maybe, upper: maybe }))
      .describe(
        "Share of all that came to this end by the day, not being back before: its cumulative incidence",
      ),
    landmarks: z.array(z.strictObject({ week: z.number(), day: z.number(), share: estimate })),
  })
  .describe("An end after which the milestone can no longer be seen");
export type OtherEnd = z.infer<typeof otherEnd>;

/**
 * Everybody, grades, the compared groups as they are, and the compared groups like for like; the sites that define the
 * milestone alike.
 */
const families = z.enum(["all", "grade", "compared", "standardised", "definition"]);

const curve = z.strictObject({
  id: z.string(),
  family: families,
  label: z.string(),
  n: count,
  events: count,
  competing: count,
  persons: count,
  last_day: z.number().describe("Last day of follow-up in the group"),
  points: z.array(curvePoint).describe("One a day on which something happened, after a point at day 0"),
  quantiles: z.array(
    z.strictObject({ share: z.number(), days: estimate.describe("Day by which this share is back") }),
  ),
  landmarks: z.array(
    z.strictObject({
      week: z.number(),
      day: z.number(),
      at_risk: count,
      returned: estimate.describe("Share back by the day"),
    }),
  ),
  restricted_mean: z.strictObject({ horizon_days: z.number(), days: estimate, standard_error: maybe }),
  other_ends: z
    .array(otherEnd)
    .describe("Each competing end that occurred, in the order of the terms; none of curves like for like"),
  number_at_risk: z.array(z.strictObject({ day: z.number(), at_risk: count, events: count })),
  coarse: z
    .literal(true)
    .optional()
    .describe(
      "Small cells are left out: shares are given at the days of the points, and nothing between them",
    ),
  falls_early: z
    .boolean()
    .describe("With delayed entry: the curve reached its end while hardly anybody was at risk"),
});
export type CurveResult = z.infer<typeof curve>;

export const curveFamily = z.strictObject({
  family: families,
  entry: z.enum(["clock", "first_visit", "treatment"]),
  held_equal: z
    .array(z.string())
    .describe("Fields held equal between the groups; empty for groups as they are"),
  strata_used: z
    .array(z.string())
    .describe("Strata that the curves are averaged over; empty for groups as they are"),
  curves: z.array(curve),
});
export type CurveFamily = z.infer<typeof curveFamily>;
