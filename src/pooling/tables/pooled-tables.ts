import { z } from "zod";
import { wordOfTable } from "../../schema/settings/texts.js";
import { maybe, reasons, whole } from "../../study/results-parts.js";
import { endsTold, noTableReasons, riskSetsSchema } from "./risk-sets.js";

const reason = z.enum(reasons).nullable();

/** A share at the end of a bin that all sites share. */
const point = z.strictObject({
  day: whole,
  at_risk: whole,
  events: whole.describe("Returns up to that day"),
  returned: maybe,
  lower: maybe,
  upper: maybe,
});

const siteCurve = z.strictObject({
  site: wordOfTable,
  n: whole,
  events: whole,
  points: z
    .array(z.strictObject({ day: whole, returned: z.number() }))
    .describe("At the ends of its own bins"),
});

const curve = z.strictObject({
  group: wordOfTable,
  n: whole,
  events: whole,
  points: z.array(point),
  sites: z.array(siteCurve).describe("Sites with an injury of the group, in the order of their names"),
});
export type PooledCurve = z.infer<typeof curve>;

const ratio = z.strictObject({
  compared: wordOfTable,
  reference: wordOfTable,
  estimate: maybe.describe("Hazard ratio, cause-specific"),
  lower: maybe,
  upper: maybe,
  standard_error: maybe.describe("Of its logarithm, from the inverse information"),
  p: maybe,
  reason,
});
export type PooledRatio = z.infer<typeof ratio>;

/** What the tables of several sites say together. */
export const pooledTablesSchema = z
  .strictObject({
    sites: z.array(
      z.strictObject({
        site: wordOfTable,
        injuries: whole,
        events: whole,
        bin_days: riskSetsSchema.shape.bin_days,
        bin_ends: riskSetsSchema.shape.bin_ends,
        ends_told: z.enum(endsTold),
        left_out: riskSetsSchema.shape.left_out,
      }),
    ),
    injuries: whole,
    events: whole,
    intervals_take: z.literal("every injury on its own"),
    ties: z.enum(["efron", "breslow"]),
    level: z.number(),
    held_equal: z.array(z.string()).describe("Fields whose values make strata, within each site"),
    not_held_equal: z
      .array(z.string())
      .describe("Numbers that the study file holds equal and a table cannot"),
    same_bins: z.boolean().describe("Whether all sites have the same bins"),
    bin_ends: riskSetsSchema.shape.bin_ends.describe(
      "Ends of bins that all sites share: where the curves are read",
    ),
    ends_told: z.enum(endsTold).describe("The least that any site tells of the other ends"),
    curves: z
      .strictObject({
        answers: z
          .enum(["share_of_people", "if_no_other_end"])
          .describe(
            "share_of_people: whoever came to another end counts as not back. if_no_other_end: other ends are ends of follow-up",
          ),
        groups: z.array(curve),
      })
      .describe("All sites as one"),
    log_rank: z
      .strictObject({ chi_square: maybe, df: whole, p: maybe, reason })
      .describe("Within strata of the study and sites"),
    hazard_ratios: z
      .array(ratio)
      .describe("Within strata of the study and sites, each with a baseline of its own"),
  })
  .describe("Risk-set tables of sites added");
export type PooledTables = z.infer<typeof pooledTablesSchema>;

/** What came of the sites' risk-set tables. */
export const pooledRiskSetsSchema = z.strictObject({
  without: z
    .array(z.strictObject({ site: wordOfTable, reason: z.enum([...noTableReasons, "not-asked"]) }))
    .describe("Sites that sent no table, and why"),
  together: pooledTablesSchema.nullable().describe("Of the sites that sent one; null where none did"),
});
export type PooledRiskSets = z.infer<typeof pooledRiskSetsSchema>;
