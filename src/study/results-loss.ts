import { z } from "zod";
import { count, estimate, maybe, whole } from "./results-parts.js";

const side = z.enum(["below", "across", "above"]);

const tipping = z
  .strictObject({
    from: side.describe("Where the figure lies as estimated: beside the line, or its interval beside 0"),
    to: side
      .nullable()
      .describe("Where it first comes to lie instead; null where no factor looked at changes it"),
    factor: maybe.describe(
      "Least unlike 1 that changes it; of a difference that of the compared group, the reference having its inverse",
    ),
    holds_at_bounds: z.boolean().describe("It stays where it is even in the worst and in the best case"),
  })
  .nullable()
  .describe("null where nobody was lost, or there is no figure");

const points = z.array(z.strictObject({ factor: z.number(), figure: estimate }));

const share = z.strictObject({
  family: z.enum(["all", "compared"]),
  label: z.string(),
  n: count,
  lost: count.describe("Last seen before the landmark and before the data were closed, without any end"),
  none_back: estimate.describe("Share back if none of those lost is back by the landmark"),
  as_followed: estimate.describe("As estimated: those lost are like those followed"),
  all_back: estimate.describe("Share back if all of those lost are"),
  points,
  line: tipping,
});
export type LossShare = z.infer<typeof share>;

const difference = z.strictObject({
  compared: z.string(),
  reference: z.string(),
  adjusted_for: z.array(z.string()).describe("Empty for groups as they are"),
  lost: z.strictObject({ compared: count, reference: count }),
  lowest: estimate.describe("None of those lost of the compared group is back, and all of the reference"),
  as_followed: estimate,
  highest: estimate.describe("All of those lost of the compared group are back, and none of the reference"),
  points,
  tipping,
});

export type LossDifference = z.infer<typeof difference>;

/** The main figures, if those lost to follow-up were unlike those followed. */
export const lossBounds = z
  .strictObject({
    week: z.number(),
    day: whole,
    line: z.number().describe("The share of which it is asked by what factor it is crossed"),
    widest_factor: z.number().describe("Factors are looked for up to this one and down to its inverse"),
    shares: z.array(share),
    differences: z
      .array(difference)
      .describe("As they are and like for like, one comparison after the other"),
  })
  .describe("Factors multiply the hazard of return from the loss on");
