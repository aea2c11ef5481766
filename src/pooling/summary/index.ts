// The one file in which a site contributes to a pool

export { type AgreedDifference, agreedDifferences, agreedFingerprint, agreedPartOf } from "./agreed.js";
export {
  mergedFormat,
  mergedSummariesSchema,
  type ReadSummary,
  readSummaries,
  summariesText,
} from "./read-summaries.js";
export {
  type HeldBack,
  type SiteSummary,
  type SummaryComparison,
  type SummaryFigure,
  type SummaryGroup,
  siteSummarySchema,
  summaryFormat,
} from "./site-summary.js";
export { type SummaryOptions, summariseSite } from "./summarise-site.js";
export { SummaryError } from "./summary-error.js";
export type { RiskSetsAsked } from "./table-of-site.js";
export { type WithheldReason, withheldReasons } from "./withheld.js";
