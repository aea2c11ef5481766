// answers of sites pooled in two stages: each site's own answer with its error, then these together

export { type CommonEffect, commonEffect } from "./two-stage/common-effect.js";
export { type Heterogeneity, heterogeneity, type Limits } from "./two-stage/heterogeneity.js";
export { leaveOneOut, type WithoutSite } from "./two-stage/leave-one-out.js";
export type { PoolingReason } from "./two-stage/pooling-reason.js";
export {
  type BetweenSites,
  type PooledInterval,
  type PredictionInterval,
  type RandomEffects,
  type RandomEffectsOptions,
  randomEffects,
} from "./two-stage/random-effects.js";
export type { SiteEstimates, SiteLeftOut } from "./two-stage/site-estimates.js";
export type { SpreadMethod } from "./two-stage/spread.js";
