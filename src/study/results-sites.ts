import { z } from "zod";
import { restrictedMean, shareAtLandmark } from "./results-curves.js";
import { effect } from "./results-effects.js";
import { count, estimate, maybe, reason } from "./results-parts.js";
import { withinCell } from "./results-within.js";

const siteAnswer = z.strictObject({
  site: z.string(),
  n: count.describe("Analysed injuries"),
  persons: count,
  events: count.describe("Returns"),
  landmarks: z.array(shareAtLandmark).describe("Share back, everybody at the site"),
  restricted_mean: restrictedMean,
  cells: z.array(withinCell).describe("One a compared group, at the main landmark"),
  effects: z
    .array(effect)
    .describe("The groups compared among these injuries alone; adjusted ones hold equal what the study does"),
});

const withoutSite = z.strictObject({
  site: z.string().describe("The site that is left out"),
  n: count.describe("Analysed injuries of the others"),
  effects: z.array(effect).describe("Adjusted effects of the others, the site among the strata"),
});

const frailty = z
  .strictObject({
    compared: z.string(),
    reference: z.string(),
    held_equal: z.array(z.string()).describe("Strata and covariates beside the frailty of the site"),
    n: count,
    events: count,
    persons: count,
    sites: count.describe("Sites with an injury in the regression"),
    hazard_ratio: estimate.describe("Within a site; injuries of one person are counted as independent"),
    standard_error: maybe.describe("On the log scale; the uncertainty of the variance is not counted"),
    p: maybe,
    variance: estimate.describe(
      "Of the frailty, whose mean is 1: 0 where the sites' rates of return are alike",
    ),
    no_frailty: z
      .strictObject({ statistic: maybe, p: maybe, reason })
      .describe("Likelihood ratio against a variance of 0, p halved"),
    rates: z
      .array(z.strictObject({ site: z.string(), rate: maybe }))
      .describe("Rate of return of each site relative to the mean site, shrunk towards 1"),
  })
  .describe("Hazards regression with a gamma frailty shared by the injuries of a site");

/** Each site's own answer beside the joined one, and what leaving a site out does to it. */
export const siteAnswers = z.strictObject({
  answers: z.array(siteAnswer),
  without: z
    .array(withoutSite)
    .describe("One a site left out; none where sites that define the milestone differently are not pooled"),
  frailty: z
    .array(frailty)
    .describe("One a pair of groups; none where returns stay between two days, or sites are not pooled"),
});
export type SiteAnswers = z.infer<typeof siteAnswers>;
