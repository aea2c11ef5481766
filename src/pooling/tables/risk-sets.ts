import { z } from "zod";
import { comparable, groupFields } from "../../schema/covariates.js";
import { competingEnds } from "../../schema/terms.js";

const count = z.number().int().min(0).max(1e9);
const day = z.number().int().min(-1).max(1e5);
/** More than anybody's weeks of follow-up, times groups and strata: it bounds what a hostile file can ask for. */
const mostLines = 5_000;
const mostCells = 2_000;
const name = z.string().min(1).max(200);

/** Events of a table in the order of their columns: the return, then the ends after which it can no longer be seen. */
export const tableEnds = ["milestone", ...competingEnds, "another_end"] as const;
export type TableEnd = (typeof tableEnds)[number];

/**
 * How far the ends after which the return can no longer be seen are told: each by itself; as one; or not at all, counted as ends of follow-up,
 * so that no share of people can be computed.
 */
export const endsTold = ["each", "as_one", "as_ends_of_follow_up"] as const;
export type EndsTold = (typeof endsTold)[number];

/** The ends that a table names where they are told so far. */
export const endsWhenTold: Readonly<Record<EndsTold, readonly TableEnd[]>> = {
  each: ["milestone", ...competingEnds],
  as_one: ["milestone", "another_end"],
  as_ends_of_follow_up: ["milestone"],
};

const binDays = z.number().int().min(1).max(3650).describe("Width of the bins that were asked for, days");
const linesOf = (item: z.ZodNumber) => z.array(item).max(mostLines);

const cell = z.strictObject({
  group: name,
  stratum: name.nullable().describe("What is held equal, as 'grade 3, female'; null where nothing is"),
  injuries: count,
  day: linesOf(day).describe("Last day of the bin; -1 for those at risk from day 0 on"),
  entered: linesOf(count).describe("Injuries at risk from after that day on"),
  censored: linesOf(count).describe("Injuries whose follow-up ended in the bin"),
  ended: z
    .partialRecord(z.enum(tableEnds), linesOf(count))
    .describe("Injuries that came to each end in the bin"),
});

/** Why a part of a table does not leave. */
export const leftOutOfTable = ["small-cell", "would-reveal", "small-bins", "missing-covariate"] as const;

/** The weekly risk-set table of a site, as its summary may carry it. */
export const riskSetsSchema = z
  .strictObject({
    format: z.literal("pulley-outcomes risk sets 1"),
    intervals_take: z
      .literal("every injury on its own")
      .describe("A table loses who the people are: what is computed from it has no clustered variance"),
    by: z.enum(comparable),
    strata: z.array(z.enum(groupFields)).max(groupFields.length),
    not_held_equal: z
      .array(name)
      .max(50)
      .describe("Numbers that the study holds equal and a table cannot: they need an exact fit over rounds"),
    bin_days: binDays,
    bin_ends: linesOf(day).describe("Last day of each bin, ascending; a bin begins after the one before it"),
    ends_told: z.enum(endsTold),
    smallest_cell: z.number().int().min(1).max(1000),
    cells: z.array(cell).max(mostCells),
    left_out: z
      .array(z.strictObject({ reason: z.enum(leftOutOfTable), cells: count, injuries: count.nullable() }))
      .max(leftOutOfTable.length)
      .describe("Parts of the table that do not leave; injuries null where the number would tell too much"),
  })
  .describe("Who was at risk, came to an end or left, by bin, group and stratum");

export type RiskSets = z.infer<typeof riskSetsSchema>;
export type RiskSetCell = RiskSets["cells"][number];

/**
 * Why no table leaves: `no-rows`; `between-visits`: the returns are known only between two days, so that a table would place each on one;
 * `small-cells`: no group within a stratum has enough people; `small-bins`: counts of too few people in the bins asked for, or in any.
 */
export const noTableReasons = ["no-rows", "between-visits", "small-cells", "small-bins"] as const;

/** The table of a site that was asked for one, or why none leaves. */
export const siteRiskSetsSchema = z.discriminatedUnion("leaves", [
  z.strictObject({ leaves: z.literal(true), table: riskSetsSchema }),
  z.strictObject({
    leaves: z.literal(false),
    reason: z.enum(noTableReasons),
    bin_days: binDays,
    coarser_bin_ends: linesOf(day)
      .nullable()
      .describe("Ends of wider bins in which a table could leave; null where none could"),
  }),
]);
export type RiskSetsMade = z.infer<typeof siteRiskSetsSchema>;
