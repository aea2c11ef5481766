// Several sites: what each is, what it contributes, what of them can be pooled, and the pooled results

export {
  describeSite,
  type SiteCohort,
  type SiteDescription,
  siteCohort,
  siteDescription,
  withoutSmallCounts,
} from "./description/index.js";
export { harmonise } from "./harmonise/index.js";
export {
  type PooledAnswer,
  type PooledResults,
  type PooledSite,
  type PoolingCaution,
  type PoolingOptions,
  pooledResultsSchema,
  poolSummaries,
  unitedSites,
} from "./pooled/index.js";
export {
  type AgreedDifference,
  agreedDifferences,
  agreedFingerprint,
  agreedPartOf,
  mergedSummariesSchema,
  type ReadSummary,
  readSummaries,
  type SiteSummary,
  SummaryError,
  type SummaryFigure,
  type SummaryOptions,
  siteSummarySchema,
  summariesText,
  summariseSite,
} from "./summary/index.js";
