import { z } from "zod";
import { exclusionCodes } from "../cohort/record.js";
import { queryCodes } from "../schema/data-query.js";
import { planSchema } from "./plan.js";
import { afterReturn } from "./results-after.js";
import { cohort } from "./results-cohort.js";
import { curveFamily } from "./results-curves.js";
import { definitions } from "./results-definitions.js";
import { differenceOverTime } from "./results-differences.js";
import { effect } from "./results-effects.js";
import { estimand } from "./results-estimands.js";
import { harmonised } from "./results-harmonised.js";
import { knownReturns } from "./results-known.js";
import { lossBounds } from "./results-loss.js";
import { answers, lostToFollowUp, missingValues } from "./results-missing.js";
import { count, estimate, maybe, reason, whole } from "./results-parts.js";
import { siteAnswers } from "./results-sites.js";
import { targetTrial } from "./results-target-trial.js";
import { warning } from "./results-warnings.js";
import { within } from "./results-within.js";
import { sealedResult } from "./sealed/sealed-plan.js";

export type { AfterReturnGroup, StatesOverTime } from "./results-after.js";
export type { CohortCell, CohortRow } from "./results-cohort.js";
export type { CurveFamily, CurvePoint, CurveResult, OtherEnd } from "./results-curves.js";
export type { DefinitionRow, Definitions } from "./results-definitions.js";
export type { DifferenceOverTime } from "./results-differences.js";
export type { EffectResult } from "./results-effects.js";
export type { Estimand } from "./results-estimands.js";
export type { KnownReturns, KnownReturnsGroup, Path } from "./results-known.js";
export type { LossDifference, LossShare } from "./results-loss.js";
export { type Count, type Estimate, type ReasonCode, reasons } from "./results-parts.js";
export type { SiteAnswers } from "./results-sites.js";
export type { OtherReading, Shortfall, TrialGroup, TrialPart } from "./results-target-trial.js";
export type { Warning } from "./results-warnings.js";
export type { Within, WithinCell, WithinRow } from "./results-within.js";

const counted = z.strictObject({ code: z.string(), n: count });

const tableAccount = z
  .strictObject({
    table: z.string(),
    file: z.string(),
    site: z.string().optional().describe("Whose file it is, where the study names several sites"),
    read: count,
    used: count,
    set_aside: count,
    reasons: z.array(z.strictObject({ code: z.enum(queryCodes), n: count, rows: z.array(whole) })),
    folded: z
      .strictObject({
        injuries: count,
        further_visits: count,
        visits_not_used: count,
        cells_from_other_rows: count,
      })
      .optional()
      .describe(
        "Where rows were visits: used = injuries + further_visits, of which the visits of visits_not_used rows are not used; blank cells that were read from another row of the same injury or person",
      ),
    rows_of_file: count
      .optional()
      .describe(
        "Where a row of the file held several injuries: how many rows the file has; each injury counts as a row read",
      ),
    not_used: z
      .strictObject({ columns: count, filled_cells: count })
      .optional()
      .describe(
        "Of a file in columns of its own: columns that are not used, and how many of their cells are filled",
      ),
  })
  .describe("read = used + set_aside, row by row");

const accounting = z.strictObject({
  tables: z.array(tableAccount),
  analysis: z.strictObject({
    injuries: count.describe("Injury rows that were used"),
    analysed: count,
    persons: count.describe("Persons among the analysed"),
    ids_at_several_sites: z
      .strictObject({ ids: count, persons: count, injuries: count })
      .optional()
      .describe(
        "Where person ids occur at more than one site: how many, as how many persons they are counted, and their injuries",
      ),
    excluded: z.array(z.strictObject({ code: z.enum(exclusionCodes), n: count })),
  }),
  comparison: z.strictObject({
    analysed: count,
    compared: count,
    left_out: z.array(counted).describe("Why an analysed injury is in none of the compared groups"),
  }),
});

const queryGroup = z
  .strictObject({
    code: z.enum(queryCodes),
    severity: z.enum(["stop", "set-aside", "look-at"]),
    file: z.string(),
    column: z.string().nullable(),
    n: count,
    rows: z.array(whole).describe("Rows as the spreadsheet shows them, at most twenty"),
    expected: z.string(),
    correction: z.string(),
  })
  .describe(
    "Queries of one kind together; the values found are not repeated here, since a report may leave the site",
  );

const followUp = z.strictObject({
  n: count,
  milestones: count,
  competing: z.array(counted),
  censored: count,
  median_days: estimate.describe("Reverse product-limit median of the follow-up"),
  recruited: z
    .strictObject({ from: z.string(), to: z.string() })
    .nullable()
    .describe(
      "Months of the first and the last day 0, YYYY-MM; null without injuries, where each person has a calendar of their own, or where small cells are left out",
    ),
  person_months: maybe.describe(
    "Months at risk, from day 0 or the entry to the return, another end or the last contact",
  ),
  not_back_days: z
    .strictObject({ shortest: z.number(), longest: z.number() })
    .nullable()
    .describe(
      "Days from day 0 to the last contact of those not back; null where there is none, or small cells are left out",
    ),
  completeness: maybe.describe("Observed over possible time at risk up to the horizon, a share"),
  known: z
    .array(counted)
    .describe("How exactly the milestone is known: day, week, month, visits, not_reached"),
  whole_weeks: z.strictObject({
    milestones: count.describe("Milestones dated to the day"),
    on_whole_weeks: count.describe(
      "Of these, a whole number of weeks after the clock; one in seven by chance",
    ),
  }),
});

const test = z.strictObject({
  id: z.string(),
  method: z.enum([
    "log_rank",
    "log_rank_stratified",
    "log_rank_trend",
    "log_rank_permuted",
    "proportionality",
  ]),
  family: z.enum(["grade", "compared"]),
  groups: z.array(z.strictObject({ label: z.string(), n: count, observed: maybe, expected: maybe })),
  strata: z.array(z.string()).describe("Fields that the test is stratified by"),
  clustered: z.boolean().describe("Whether the test allows for several injuries of one person"),
  statistic: maybe,
  degrees_of_freedom: maybe,
  p: maybe,
  reason,
});
export type TestResult = z.infer<typeof test>;

const distances = z.strictObject({
  pulley: z.string(),
  position: z.string(),
  threshold_mm: z.number(),
  injuries_with_baseline: count,
  injuries_read_late: count.describe(
    "Injuries whose first reading was taken after the first treatment began, so that it is no baseline",
  ),
  injuries_with_both: count,
  groups: z.array(
    z.strictObject({
      label: z.string(),
      n: count,
      before_mean: maybe,
      before_standard_deviation: maybe,
      after_mean: maybe,
      after_standard_deviation: maybe,
      change: estimate.describe("Mean of after less before, mm"),
      median_days_between: maybe,
    }),
  ),
  pairs: z
    .array(z.strictObject({ group: z.string(), before_mm: z.number(), after_mm: z.number() }))
    .describe(
      "Without ids or dates, in ascending order; of a large group every so-many-th pair, 200 at most, for the figure",
    ),
  thresholds: z
    .array(z.strictObject({ threshold_mm: z.number(), n: count, above: count, share_above: estimate }))
    .describe("How many baseline readings each threshold would call complete"),
});

/** What is written of counts with few people behind them. */
const smallCells = z
  .strictObject({
    choice: z.enum(["written", "leave-out"]),
    smallest: z
      .number()
      .int()
      .min(2)
      .describe("Fewer people than this behind a count, or a day of a curve, make a small cell"),
    found: whole.nullable().describe("Small cells in these results; null where they are left out"),
    left_out: z.array(z.string()).describe("Parts that are left out as a whole"),
  })
  .describe("Small cells; where they are left out, counts are rounded to a multiple of the smallest cell");

/** Everything a run has computed, at full precision. Reports and charts are views of it. */
export const resultsSchema = z
  .strictObject({
    format: z.literal("pulley-outcomes results 1"),
    plan: planSchema,
    small_cells: smallCells,
    accounting,
    queries: z.array(queryGroup),
    answers: answers.nullable().describe("null when the study names no file of answers"),
    target_trial: targetTrial
      .nullable()
      .describe("null where no treatments are compared, or small cells are left out"),
    cohort,
    follow_up: followUp,
    known_returns: knownReturns,
    missing: missingValues,
    lost: lostToFollowUp,
    loss_bounds: lossBounds
      .nullable()
      .describe(
        "null where small cells are left out, sites that define the milestone differently are not pooled, or no share is read at the main landmark",
      ),
    definitions: definitions
      .nullable()
      .describe("null where the sites define the milestone alike, or fewer than two have analysed injuries"),
    sites: siteAnswers
      .nullable()
      .describe("null where the study names no sites, or small cells are left out"),
    sealed: sealedResult
      .nullable()
      .describe("What is asked beside what was sealed before; null where the study names no sealed plan"),
    harmonised: harmonised
      .nullable()
      .describe("What the sites mean and record; null where the study names no sites"),
    curves: z
      .array(curveFamily)
      .describe(
        "Those of each definition alone where sites define the milestone differently and may not be pooled",
      ),
    differences_over_time: z.array(differenceOverTime).describe("None where small cells are left out"),
    within: within
      .nullable()
      .describe("null where the study asks for no such field, compares by it, or leaves small cells out"),
    after_return: afterReturn.nullable().describe("null where small cells are left out"),
    tests: z.array(test),
    effects: z.array(effect),
    estimands: z.array(estimand).describe("What the figures of the return are figures of"),
    distances: distances.nullable().describe("null when the study has no imaging"),
    warnings: z.array(warning),
  })
  .describe("Results of one study");

export type Results = z.infer<typeof resultsSchema>;
