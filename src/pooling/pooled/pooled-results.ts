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
  "tied",
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
  estimate: maybe.describe(
    "On the scale of pooling; of a share the logit, with half an injury added where each return is on a day",
  ),
  variance: maybe.describe("Of the estimate"),
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
  first_page: z.boolean().describe("Whether the first page of the report speaks of it"),
  scale: z.enum(["logit", "share", "days"]),
  pooled_by: z
    .enum(["counts", "estimates"])
    .describe(
      "counts: shares by the likelihood of their effective counts; estimates: each site's estimate with its error, of a share the logit with half an injury added",
    ),
  sites: z.array(siteAnswer).describe("Every site, in the order of their names"),
  used: whole.describe("Sites in the pooled answer"),
  n: sum,
  persons: sum,
  events: sum,
  common: pooledFigure.describe("Taking the answer for one and the same at all sites"),
  random: pooledFigure
    .extend({
      df: maybe,
      prediction: limits.describe(
        "Where the true answer of a further site of the same kind is expected, the spread between sites integrated out",
      ),
      spread,
    })
    .describe(
      "Mean of sites like these: restricted likelihood; of estimates with the Hartung-Knapp interval, never narrower than the normal one, of counts with Student's t",
    ),
  paule_mandel: pooledFigure
    .extend({ spread })
    .describe(
      "Of the estimates, shares too: the spread between sites by Paule and Mandel, Hartung-Knapp interval",
    ),
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

/** What may go with what a site finds. */
export const characteristics = [
  "severe_share",
  "delay_days",
  "sent_by_others",
  "days_between_visits",
  "follow_up_days",
  "lost_share",
  "wide_share",
] as const;
export type Characteristic = (typeof characteristics)[number];

const siteCharacteristic = z.strictObject({
  characteristic: z.enum(characteristics),
  unit: z.enum(["share", "days", "yes or no"]),
  step: z.number().positive().describe("Lines are told by so much of it, in its unit"),
  sites: z.array(z.strictObject({ site: wordOfTable, value: maybe })),
});
export type SiteCharacteristic = z.infer<typeof siteCharacteristic>;

const characteristicLine = z.strictObject({
  answer: z.string().describe("Its id"),
  characteristic: z.enum(characteristics),
  sites: whole.describe("Sites that have both"),
  value: maybe.describe(
    "Change of the answer by one step: ratio of the odds of a share, difference of shares, days",
  ),
  lower: maybe,
  upper: maybe,
  p: maybe,
  tau: maybe.describe("Spread between sites that the line leaves, on the scale of pooling"),
  tau_without: maybe.describe("Spread of the same sites without the line"),
  reason,
});
export type CharacteristicLine = z.infer<typeof characteristicLine>;

const asymmetryLine = z.strictObject({
  answer: z.string(),
  sites: whole,
  slope: maybe.describe("Change of the answer per unit of its standard error"),
  lower: maybe,
  upper: maybe,
  p: maybe,
  reason,
});
export type AsymmetryLine = z.infer<typeof asymmetryLine>;

const explained = z
  .strictObject({
    fewest_sites: whole.describe("With fewer there are no lines"),
    characteristics: z.array(siteCharacteristic),
    lines: z
      .array(characteristicLine)
      .describe("Each main answer on each characteristic by itself, Knapp-Hartung"),
    small_sites: z.array(asymmetryLine).describe("Whether small sites answer otherwise, of each main answer"),
  })
  .describe("Whether what the sites are goes with what they find");
export type Explained = z.infer<typeof explained>;

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
    explained,
  })
  .describe("Sites' summaries pooled in two stages");
export type PooledResults = z.infer<typeof pooledResultsSchema>;
