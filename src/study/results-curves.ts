import { z } from "zod";
import { competingEnds } from "../schema/terms.js";
import type { TimeLaw } from "../statistics/survival/accelerated/index.js";
import { count, estimate, maybe, reason } from "./results-parts.js";

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

const alone = z.strictObject({
  bounds: z
    .array(z.strictObject({ day: z.number(), lower: z.number(), upper: z.number() }))
    .describe(
      "From each day to the next the share back lies between these by the estimate without a model (innermost intervals); the model is not in them",
    ),
  landmarks: z.array(z.strictObject({ week: z.number(), day: z.number(), lower: maybe, upper: maybe })),
  reason,
});
export type AloneCurve = z.infer<typeof alone>;

/** Laws of time that a model can have. */
export const timeLaws = [
  "exponential",
  "weibull",
  "log-normal",
  "log-logistic",
  "generalised-gamma",
] as const satisfies readonly TimeLaw[];

/** The accelerated model that the curves of a family come from. */
const model = z.strictObject({
  form: z
    .enum(["together", "by-group", "groups-alone"])
    .nullable()
    .describe("together: one law and spread for all groups; by-group: each group a model of its own"),
  law: z.enum(timeLaws).nullable(),
  aic: maybe,
  laws: z
    .array(z.strictObject({ law: z.enum(timeLaws), aic: maybe }))
    .describe("Laws compared with the groups together, in order of AIC"),
  other_ends: z.array(
    z.strictObject({ end: z.enum(competingEnds), law: z.enum(timeLaws).nullable(), aic: maybe }),
  ),
  time_ratios: z
    .array(
      z.strictObject({
        compared: z.string(),
        reference: z.string(),
        ratio: estimate,
        p: maybe,
      }),
    )
    .describe(
      "By what times to a return are multiplied with the compared group, as if no other end came; none where each group has a spread of its own, or nothing is compared",
    ),
  reason,
});
export type FamilyModel = z.infer<typeof model>;

export const shareAtLandmark = z.strictObject({
  week: z.number(),
  day: z.number(),
  at_risk: count,
  returned: estimate.describe("Share back by the day"),
});

export const restrictedMean = z.strictObject({
  horizon_days: z.number(),
  days: estimate,
  standard_error: maybe,
});

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
  landmarks: z.array(shareAtLandmark),
  restricted_mean: restrictedMean,
  other_ends: z
    .array(otherEnd)
    .describe("Each competing end that occurred, in the order of the terms; none of curves like for like"),
  number_at_risk: z.array(z.strictObject({ day: z.number(), at_risk: count, events: count })),
  alone: alone
    .nullable()
    .describe(
      "What the data alone say of spans; null where every return is placed on a day, or small cells are left out",
    ),
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
  model: model.nullable().describe("null where every return is placed on a day"),
  curves: z.array(curve),
});
export type CurveFamily = z.infer<typeof curveFamily>;
