import { z } from "zod";
import { count, estimate, maybe, reason } from "./results-parts.js";

/** On what the figures of a return rest: one day for each, or the spans between which they are known to lie. */
export const paths = ["days", "spans"] as const;
export type Path = (typeof paths)[number];

const group = z.strictObject({
  family: z.enum(["all", "compared"]),
  label: z.string(),
  n: count.describe("Injuries that returned"),
  to_the_day: count,
  narrow: count.describe("Known to a span of 2 to 14 days"),
  wide: count.describe("Known to a wider span"),
  wide_share: maybe,
  mean_wide_days: maybe.describe("Days of wide spans, summed, over all returns"),
  median_days: maybe.describe("Median width of a span; 0 where the day is known"),
  largest_days: maybe,
});
export type KnownReturnsGroup = z.infer<typeof group>;

const readings = z.strictObject({
  family: z.enum(["all", "compared"]),
  label: z.string(),
  landmarks: z.array(
    z.strictObject({
      week: z.number(),
      day: z.number(),
      earliest: estimate.describe("Every return on the first day on which it can have been"),
      midpoint: estimate,
      latest: estimate.describe("Every return on the last day on which it can have been"),
      alone: z
        .strictObject({ lower: maybe, upper: maybe })
        .describe(
          "Between these by the estimate from the spans without a model; equal where the data settle it",
        ),
    }),
  ),
});

/** How exactly the returns are known, and what follows from it. */
export const knownReturns = z.strictObject({
  path: z
    .enum(paths)
    .describe(
      "days: each return is placed on one day; spans: shares are estimated by a model from the spans",
    ),
  because: z
    .array(z.enum(["asked", "few_wide", "wide_share", "wide_days"]))
    .describe(
      "Why: the study file (asked); few wide spans (days); more than 3 in 10 returns known to a span wider than 14 days only, or such spans coming to more than 15 days a return (spans)",
    ),
  groups: z.array(group).describe("Everybody, then the compared groups"),
  most_open: maybe.describe(
    "Largest width of what the spans leave open of a share at a landmark, everybody and compared groups",
  ),
  most_moved: maybe.describe("Largest distance by which midpoints move a share at a landmark out of that"),
  comparison: z
    .strictObject({ statistic: maybe, degrees_of_freedom: maybe, p: maybe, reason })
    .describe("Rank test of the widths between the compared groups"),
  readings: z
    .array(readings)
    .describe(
      "Everybody and the compared groups with each return as early and as late as it can have been; none where all are known to the day",
    ),
});
export type KnownReturns = z.infer<typeof knownReturns>;
