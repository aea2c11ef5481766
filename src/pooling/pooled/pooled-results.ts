import { z } from "zod";
import { wordOfTable } from "../../schema/settings/texts.js";
import { competingEnds } from "../../schema/terms.js";
import { harmonised } from "../../study/results-harmonised.js";
import { count, maybe, reasons, whole } from "../../study/results-parts.js";
import { agreedSchema } from "../summary/agreed.js";
import { siteSummarySchema } from "../summary/site-summary.js";
import { withheldReasons } from "../summary/withheld.js";
import { pooledRiskSetsSchema } from "../tables/pooled-tables.js";

export const pooledFormat = "pulley-outcomes pooled results 1";

/** Why a pooled figure, or a site's part in it, is not there. */
export const pooledReasons = [
  ...reasons,
  ...withheldReasons,
  "no-estimate",
  "not-finite",
  "too-few-sites",
  "closer-than-chance",
  "not-in-summary",
] as const;
export type PooledReason = (typeof pooledReasons)[number];
const reason = z.enum(pooledReasons).nullable();

const limits = z.strictObject({ lower: maybe, upper: maybe, reason });

/** A figure over sites as it is shown, with its estimate and error on the scale of pooling. */
const pooledFigure = z.strictObject({
  value: maybe,
  lower: maybe,
  upper: maybe,
  estimate: maybe.describe("On the scale of pooling"),
  standard_error: maybe.describe("On the scale of pooling, that of the interval"),
  p: maybe.describe("Of no difference; null for what is no comparison"),
  reason,
});
export type PooledFigure = z.infer<typeof pooledFigure>;

const siteAnswer = z.strictObject({
  site: wordOfTable,
  path: z.enum(["days", "spans"]).nullable(),
  n: count.nullable(),
  persons: count.nullable(),
  events: count.nullable(),
  value: maybe,
  lower: maybe.describe("Normal limits on the scale of pooling"),
  upper: maybe,
  weight: z.number().min(0).max(1).describe("Part in the answer by random effects; 0 where left out"),
  reason: reason.describe("Why the site is not in the pooled answer"),
});
export type PooledSite = z.infer<typeof siteAnswer>;

const sum = z
  .strictObject({
    told: whole.describe("Sum over the sites in the answer that tell it"),
    not_told: whole.describe("Sites in the answer that leave the count out"),
    rounded: z.boolean().describe("Whether a site in the answer rounds its counts"),
  })
  .describe("A count over sites; a site that leaves small cells out rounds it");
export type PooledCount = z.infer<typeof sum>;

const spread = z.strictObject({
  tau: maybe.describe("Standard deviation between sites, on the scale of pooling"),
  tau_squared: z.strictObject({ value: maybe, lower: maybe, upper: maybe }),
  at_zero: z.boolean(),
});

const answer = z.strictObject({
  id: z.string(),
  of: z.enum(["group", "comparison"]),
  family: z.enum(["all", "grade", "compared"]).nullable().describe("Of a group"),
  label: wordOfTable.nullable().describe("Of a group"),
  compared: wordOfTable.nullable(),
  reference: wordOfTable.nullable(),
  adjusted_for: z.array(z.string()),
  measure: z.enum(["share_back", "mean_days", "other_end"]),
  end: z.enum(competingEnds).nullable(),
  week: maybe,
  day: whole,
  main: z.boolean().describe("Whether it is at the landmark that the plain words speak of, or the horizon"),
  scale: z.enum(["logit", "share", "days"]),
  sites: z.array(siteAnswer).describe("Every site, in the order of their names"),
  used: whole.describe("Sites in the pooled answer"),
  n: sum,
  persons: sum,
  events: sum,
  common: pooledFigure.describe("Taking the answer for one and the same at all sites"),
  random: pooledFigure
    .extend({
      df: maybe,
      prediction: limits.describe("Where the true answer of a further site of the same kind is expected"),
      spread,
    })
    .describe("Mean of sites like these: restricted likelihood, Hartung-Knapp interval never narrower"),
  paule_mandel: pooledFigure
    .extend({ prediction: limits, spread })
    .describe("The same with the spread between sites by Paule and Mandel"),
  heterogeneity: z.strictObject({
    q: maybe,
    df: whole,
    p: maybe,
    i_squared: z.strictObject({ value: maybe, lower: maybe, upper: maybe }),
  }),
  without: z
    .array(z.strictObject({ site: wordOfTable, value: maybe, lower: maybe, upper: maybe }))
    .describe("The answer by random effects without each site in turn; of main answers only"),
});
export type PooledAnswer = z.infer<typeof answer>;

/** Things about the sites that a reader must know before the answer. */
export const poolingCautions = [
  "definitions-differ",
  "definitions-not-stated",
  "schedules-unlike",
  "losses-unlike",
  "paths-differ",
  "versions-differ",
  "smallest-cells-differ",
  "few-sites",
  "held-back",
  "one-site-heavy",
] as const;

const caution = z.strictObject({
  code: z.enum(poolingCautions),
  sites: z.array(wordOfTable).describe("The sites that it is about"),
});
export type PoolingCaution = z.infer<typeof caution>;

/** Any set of sites' summaries, pooled in two stages. */
export const pooledResultsSchema = z
  .strictObject({
    format: z.literal(pooledFormat),
    toolkit_version: z.string(),
    agreed: z.strictObject({ sha256: z.string(), file: agreedSchema }),
    sites: z.array(
      z.strictObject({
        site: wordOfTable,
        summary_sha256: z.string().describe("Of the summary as it lies in the folder"),
        toolkit_version: z.string(),
        n: count.nullable(),
        persons: count.nullable(),
        events: count.nullable(),
        small_cells: siteSummarySchema.shape.small_cells,
        held_back: siteSummarySchema.shape.held_back,
        quality: siteSummarySchema.shape.quality,
      }),
    ),
    harmonised,
    cautions: z.array(caution),
    answers: z.array(answer),
    risk_sets: pooledRiskSetsSchema
      .nullable()
      .describe("From risk-set tables; null where no site was asked for one"),
  })
  .describe("Sites' summaries pooled in two stages");
export type PooledResults = z.infer<typeof pooledResultsSchema>;
