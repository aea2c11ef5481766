// answers of sites pooled in two stages: each site's own answer with its error, then these together

export { type SmallStudyAsymmetry, smallStudyAsymmetry } from "./two-stage/asymmetry.js";
export { type CommonEffect, commonEffect } from "./two-stage/common-effect.js";
export { type FurtherSite, furtherSite, furtherSiteShare } from "./two-stage/further-site.js";
export { type Heterogeneity, heterogeneity, type Limits } from "./two-stage/heterogeneity.js";
export { leaveOneOut, type WithoutSite } from "./two-stage/leave-one-out.js";
export {
  type BetweenSites,
  type PooledInterval,
  type PredictionInterval,
  type RandomEffects,
  type RandomEffectsOptions,
  randomEffects,
} from "./two-stage/random-effects.js";

// what may explain why sites differ

export {
  type MetaRegression,
  type MetaRegressionOptions,
  metaRegression,
  type RegressionTest,
  type SitesWithCovariates,
} from "./two-stage/meta-regression.js";
export { type SitesInGroups, type SubgroupAnswer, type Subgroups, subgroups } from "./two-stage/subgroups.js";

// shares and medians of sites

export { logMedians, type SiteMedians } from "./two-stage/median-times.js";
export {
  type PooledShare,
  type PooledShareOptions,
  pooledShare,
  type ShareSpreadFound,
} from "./two-stage/pooled-share.js";
export {
  differencesOfShares,
  logOddsOfShares,
  type SharesOfTwoGroups,
  type SiteShares,
} from "./two-stage/site-shares.js";

// what all of them take, and why a figure is missing

export type { PoolingReason } from "./two-stage/pooling-reason.js";
export type { SiteEstimates, SiteLeftOut } from "./two-stage/site-estimates.js";
export type { SpreadMethod } from "./two-stage/spread.js";
