// bootstrap of any figure

export { type Bootstrap, type BootstrapOptions, bootstrap } from "./bootstrap.js";
export {
  type BootstrapIntervals,
  bootstrapIntervals,
  type CorrectedInterval,
  type IntervalMaterial,
  type IntervalOptions,
  type Limits,
} from "./intervals.js";
export type { ResampledRows } from "./plan.js";
export type { ReplicateQuantile } from "./replicate-quantile.js";
export {
  type BootstrapSample,
  bootstrapReplicates,
  type Replicates,
  type Statistic,
  type StatisticValue,
} from "./replicates.js";

// bootstrap of times, rows sorted once

export {
  bootstrapLogHazardRatio,
  bootstrapQuantileTime,
  bootstrapRestrictedMean,
  bootstrapShare,
  type ResampledTimes,
} from "./bootstrap-of-times.js";
export {
  type CountedFigure,
  countedQuantileTime,
  countedRestrictedMean,
  countedShare,
} from "./counted-curve.js";
export {
  type CountedHazard,
  type CountedHazardColumns,
  countedLogHazardRatio,
  type HazardTies,
} from "./counted-hazard.js";

// permutation

export {
  type PermutationOptions,
  type PermutationTest,
  type PermutedLabels,
  permutationTest,
} from "../shared/permutation.js";
