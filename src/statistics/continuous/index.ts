// one sample

export { type Description, describe } from "./describe.js";
export { lagOneCorrelation } from "./lag-one-correlation.js";
export { type Interval, meanInterval, varianceInterval } from "./mean-and-variance.js";
export {
  type QuantileType,
  type SampleQuantile,
  type SampleQuantileOptions,
  sampleQuantile,
} from "./quantiles.js";

// two means

export type { LevelOption } from "../shared/options.js";
export { type MeanDifference, pairedMeanChange, welch } from "./mean-comparison.js";
export {
  type PermutationOfMeans,
  type PermutationOfMeansOptions,
  permutationOfMeans,
} from "./permutation-of-means.js";
export { studentT } from "./student-t.js";
export type { TwoSamples } from "./two-samples.js";

// standardised differences

export { noncentralTTails } from "./noncentral-t.js";
export { standardisedDifference, standardisedDifferenceOfShares } from "./standardised-difference.js";
export {
  type StandardisedChange,
  type StandardisedMeanDifference,
  standardisedChange,
  standardisedMeanDifference,
} from "./standardised-mean.js";

// rank tests

export { type ExactTails, rankSumDistribution, signedRankDistribution } from "./exact-ranks.js";
export type { NormalRankTest, RankTestOptions } from "./normal-rank-test.js";
export type { ApproximateLimits, ExactLimits, OrderLimits } from "./order-limits.js";
export { type RankSum, rankSum, type Shift } from "./rank-sum.js";
export { type Middle, type SignedRank, type SignedRankOptions, signedRank } from "./signed-rank.js";

// several groups

export { type AnalysisOfVariance, analysisOfVariance } from "./analysis-of-variance.js";
export type { GroupedValues } from "./groups-of-values.js";
export { rankTestOfGroups } from "./rank-test-of-groups.js";

// a proportion

export { type ProportionInterval, wilson } from "./wilson.js";
