// curves of groups compared

export type { GroupedTimes, TimeWeight } from "./grouped-times.js";
export {
  type LogRank,
  type LogRankOptions,
  type LogRankTrend,
  logRank,
  logRankTrend,
} from "./log-rank.js";
export { oneStepHazardRatio } from "./one-step-ratio.js";
export { type PermutedLogRank, type PermutedLogRankOptions, permutedLogRank } from "./permuted-log-rank.js";

// few clusters: several fingers of a person

export {
  type ClusteredGroupedTimes,
  type FewClustersLogRank,
  type FewClustersTrend,
  fewClustersLogRank,
  fewClustersTrend,
} from "./few-clusters-log-rank.js";
export {
  type PersonPermutedLogRank,
  type PersonPermutedLogRankOptions,
  personPermutedLogRank,
} from "./person-permutation.js";
