import { z } from "zod";
import { queryCodes } from "../../schema/data-query.js";
import { wordOfTable } from "../../schema/settings/texts.js";
import { competingEnds } from "../../schema/terms.js";
import { resultsSchema } from "../../study/results.js";
import { count, maybe, reasons, whole } from "../../study/results-parts.js";
import { siteDescription } from "../description/index.js";
import { siteRiskSetsSchema } from "../tables/risk-sets.js";
import { agreedSchema } from "./agreed.js";
import { withheldReasons } from "./withheld.js";

export const summaryFormat = "pulley-outcomes site summary 1";

const figure = z.strictObject({
  measure: z.enum(["share_back", "mean_days", "other_end"]),
  week: maybe.describe("The landmark as the study file writes it; null for the mean up to the horizon"),
  day: whole.describe("The landmark or the horizon, days"),
  scale: z.enum(["logit", "share", "days"]).describe("The scale of estimate and variance"),
  value: maybe.describe("As it is shown: a share, a difference of shares, days"),
  standard_error: maybe.describe("Of the value; people with several injuries count once"),
  estimate: maybe.describe(
    "On the scale of pooling; of a share the empirical logit, which is there also where nobody or everybody is back",
  ),
  variance: z.number().positive().nullable().describe("Of the estimate, with what small samples need"),
  reason: z
    .enum([...reasons, ...withheldReasons])
    .nullable()
    .describe("Why there is no estimate: none could be had, or it was held back at the site"),
});
export type SummaryFigure = z.infer<typeof figure>;

const figures = z.strictObject({
  figures: z.array(figure).max(500),
  variance: z
    .array(z.array(maybe))
    .describe(
      "Variance matrix of the estimates, in the order of the figures: products of what each person moves them by; null where one is missing",
    ),
});
export type SummaryFigures = z.infer<typeof figures>;

const path = z
  .enum(["days", "spans"])
  .describe("days: each return on a day; spans: returns stay between visits, and a model speaks");

const group = z.strictObject({
  family: z.enum(["all", "grade", "compared"]),
  label: wordOfTable,
  entry: z.enum(["clock", "first_visit", "treatment"]),
  path,
  n: count.describe("Injuries"),
  persons: count,
  events: count.describe("Of these injuries, those that came back"),
  ...figures.shape,
  other_ends: z
    .array(z.strictObject({ end: z.enum(competingEnds), events: count, ...figures.shape }))
    .describe("Each competing end of which enough people are told: the share that came to it"),
});
export type SummaryGroup = z.infer<typeof group>;

const sides = z.strictObject({ compared: count, reference: count });
const comparison = z.strictObject({
  compared: wordOfTable,
  reference: wordOfTable,
  adjusted_for: z.array(z.string()).describe("Fields held equal; empty for the groups as they are"),
  strata_used: z.array(z.string()),
  path,
  n: sides,
  persons: sides,
  events: sides,
  ...figures.shape,
});
export type SummaryComparison = z.infer<typeof comparison>;

const quality = z
  .strictObject({
    tables: z
      .array(z.strictObject({ table: z.string(), read: count, used: count, set_aside: count }))
      .nullable()
      .describe("Rows of each table; null where the tables hold other sites as well"),
    queries: z
      .array(
        z.strictObject({
          code: z.enum(queryCodes),
          severity: z.enum(["stop", "set-aside", "look-at"]),
          n: count,
        }),
      )
      .nullable()
      .describe("Data queries by kind; null where the tables hold other sites as well"),
    analysis: resultsSchema.shape.accounting.shape.analysis,
  })
  .describe("What became of the rows");

/** What a site contributes to a pool: no row, no date, no name of a person. */
export const siteSummarySchema = z
  .strictObject({
    format: z.literal(summaryFormat),
    toolkit_version: z.string().max(100),
    site: wordOfTable.describe("The name by which the site is known among those that are pooled"),
    agreed: z.strictObject({
      sha256: z.string().regex(/^[0-9a-f]{64}$/, "64 hexadecimal digits"),
      file: agreedSchema,
    }),
    small_cells: z
      .strictObject({ choice: z.enum(["written", "leave-out"]), smallest: z.number().int().min(2) })
      .describe("Whether anything was held back because fewer people than the smallest cell are behind it"),
    description: siteDescription,
    groups: z.array(group).max(500),
    comparisons: z.array(comparison).max(500),
    held_back: z
      .array(
        z.strictObject({
          of: z.enum(["group", "end", "comparison"]),
          family: z.enum(["all", "grade", "compared"]).nullable().describe("Of a group, or of an end in it"),
          label: wordOfTable.nullable(),
          end: z.enum(competingEnds).nullable(),
          compared: wordOfTable.nullable().describe("Of a comparison"),
          reference: wordOfTable.nullable(),
          adjusted_for: z.array(z.string()),
          reason: z.enum(withheldReasons),
        }),
      )
      .max(2_000)
      .describe("Groups, ends and comparisons of which nothing leaves the site"),
    quality,
    risk_sets: siteRiskSetsSchema
      .optional()
      .describe("Where the site was asked for it: its risk-set table, or why none leaves"),
  })
  .describe("Summary of a site");
export type SiteSummary = z.infer<typeof siteSummarySchema>;
export type HeldBack = SiteSummary["held_back"][number];
