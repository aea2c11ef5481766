import { z } from "zod";
import { competingEnds } from "../schema/terms.js";
import { paths } from "./results-known.js";
import { count } from "./results-parts.js";

/** What figures with one estimand are figures of, in a line: of whom, treated how, counted from when, and so on. */
export const estimand = z
  .strictObject({
    id: z.string().describe("Named in the tables beside each figure"),
    figure: z.enum([
      "shares_and_times",
      "difference_of_shares",
      "difference_of_mean_times",
      "hazard_ratio",
      "shares_within",
      "states_after_return",
    ]),
    people: z
      .enum(["analysed", "grades", "compared", "strata_used", "with_every_field", "definitions", "within"])
      .describe(
        "Of whom: all analysed injuries; each grade; the groups compared; those of them in the strata used, or with every field that is adjusted for; the sites that mean the same by the milestone; the groups compared within each value of a field",
      ),
    groups: z.array(z.strictObject({ label: z.string(), n: count })),
    by: z.string().nullable().describe("The field whose values make the groups; null for all together"),
    counted_from: z.enum(["injury", "first_visit", "treatment_start"]),
    at_risk_from: z.enum(["clock", "first_visit", "treatment"]),
    competing_ends: z.array(z.enum(competingEnds)),
    competing_ends_are: z
      .enum(["none", "not_back", "supposed_away", "end_of_being_at_risk", "states"])
      .describe(
        "Counted as not back; supposed not to occur; of a ratio of rates, the end of being at risk; states of their own",
      ),
    lost_are: z.enum(["like_those_followed"]),
    returns: z.enum(paths),
    adjusted_for: z.array(z.string()),
    strata_used: z.array(z.string()),
  })
  .describe("Figures with one estimand");
export type Estimand = z.infer<typeof estimand>;
