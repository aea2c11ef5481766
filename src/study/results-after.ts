import { z } from "zod";
import { count, estimate, maybe } from "./results-parts.js";

const share = z.number();

const overTime = z
  .strictObject({
    last_day: z.number(),
    points: z
      .array(
        z.strictObject({
          day: z.number(),
          not_yet: share.describe("Not back, and not at another end"),
          back_and_well: share.describe("Back, and not ruptured again, given up or died since"),
          ruptured_again: share.describe("Were back and have ruptured again"),
          ended_before: share.describe("Came to another end without having been back"),
          ended_after: share.describe("Were back and have given up or died since"),
        }),
      )
      .describe("Shares of all, one point a day on which one of them changed, after one at day 0"),
    number_followed: z.array(z.strictObject({ day: z.number(), not_yet: count, back_and_well: count })),
  })
  .describe(
    "Share of all in each state over time, up to the last day on which anybody is followed after the return",
  );
export type StatesOverTime = z.infer<typeof overTime>;

const group = z.strictObject({
  family: z.enum(["all", "compared", "definition"]),
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
  over_time: overTime,
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
  groups: z
    .array(group)
    .describe(
      "Everybody, then the compared groups; each definition of the return, where they are not pooled",
    ),
  order_not_recorded: count.describe(
    "Injuries whose new rupture falls within the span in which the return is known: which came first is not recorded",
  ),
});
