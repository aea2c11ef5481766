// Any set of sites' summaries to pooled results

export { type PoolingOptions, poolSummaries } from "./pool-summaries.js";
export {
  type Characteristic,
  type CharacteristicLine,
  type Explained,
  type PooledAnswer,
  type PooledReason,
  type PooledResults,
  type PooledSite,
  type PoolingCaution,
  pooledFormat,
  pooledReasons,
  pooledResultsSchema,
  poolingCautions,
  type SiteCharacteristic,
} from "./pooled-results.js";
export { unitedSites } from "./unite.js";
