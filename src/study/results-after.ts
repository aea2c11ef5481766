import { z } from "zod";
import { count, estimate, maybe } from "./results-parts.js";

const group = z.strictObject({
  family: z.enum(["all", "compared"]),
  label: z.string(),
  n: count,
  returned: count,
  ruptured_again: count.describe("New ruptures of the same finger after the return"),
  operated: count.describe("Operations after the return"),
  person_months: maybe.describe("Months from the return to the new rupture, or to the end of follow-up"),
  rate: estimate.describe("New ruptures per 100 person-months after the return"),
  landmarks: z.array(
    z.strictObject({
      week: z.number(),
      day: z.number(),
      back_and_well: estimate.describe("Share of all that are back and have not ruptured again"),
      ruptured_again: estimate.describe("Share of all that were back and have ruptured again"),
    }),
  ),
  level: z
    .strictObject({ below: count, same: count, above: count, not_recorded: count })
    .describe("Of those who returned: the latest level beside the one before the injury"),
  complications: z.strictObject({
    asked: count.describe(
      "Injuries with a visit after the first treatment began that says something of complications",
    ),
    found: count,
    share: estimate,
  }),
});
export type AfterReturnGroup = z.infer<typeof group>;

/** What came after the return. */
export const afterReturn = z.strictObject({
  groups: z.array(group).describe("Everybody, then the compared groups"),
  order_not_recorded: count.describe(
    "Injuries whose new rupture falls within the span in which the return is known: which came first is not recorded",
  ),
});
