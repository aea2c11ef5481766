// The whole layer by topic: this index has what the layers above use most; the folders agreement, competing, proportions, rates, resampling,
// states, survival/after-loss, survival/bands, survival/interval-censored, survival/accelerated, hazards, regression/logistic and
// regression/mixed have indexes of their own, imported as pulley-outcomes/statistics/FOLDER.

// errors and missing figures

export { ArgumentError } from "./shared/arguments.js";
export type { Estimate, Figure, Reason, TestResult } from "./shared/figure.js";
export type { LevelOption } from "./shared/options.js";

// time to event: rows and risk sets

export type { TimeToEvent } from "./shared/time-to-event.js";
export { numberAtRisk, prepareRiskSets, type RiskSets } from "./survival/risk-sets.js";

// time to event: one group

export {
  type CumulativeHazard,
  type CumulativeHazardOptions,
  cumulativeHazard,
} from "./survival/cumulative-hazard.js";
export type { Curve, CurveOptions, VarianceKind } from "./survival/curve.js";
export type { IntervalScale } from "./survival/curve-intervals.js";
export { type Completeness, completenessOfFollowUp, followUpMedian } from "./survival/follow-up.js";
export { productLimit, productLimitOf } from "./survival/product-limit.js";
export { type QuantileOptions, type QuantileTime, quantileTime } from "./survival/quantile-time.js";
export {
  type RestrictedIncidenceMeanOptions,
  type RestrictedMean,
  type RestrictedMeanOptions,
  restrictedIncidenceMean,
  restrictedMean,
} from "./survival/restricted-mean.js";
export { type ShareAt, shareAt } from "./survival/share-at.js";

// time to event: competing events

export type { CompetingEvents } from "./survival/competing-events.js";
export {
  type CauseIncidence,
  type CumulativeIncidence,
  cumulativeIncidence,
} from "./survival/cumulative-incidence.js";
export { type IncidenceAt, incidenceAt } from "./survival/incidence-at.js";
export { type IncidenceCurveOptions, incidenceCurve } from "./survival/incidence-curve.js";

// time to event: groups compared

export type { GroupedTimes, TimeWeight } from "./comparison/grouped-times.js";
export {
  type LogRank,
  type LogRankOptions,
  type LogRankTrend,
  logRank,
  logRankTrend,
} from "./comparison/log-rank.js";
export {
  type PermutedLogRank,
  type PermutedLogRankOptions,
  permutedLogRank,
} from "./comparison/permuted-log-rank.js";
export {
  type Difference,
  differenceOf,
  type Ratio,
  ratioOf,
} from "./survival/contrast.js";
export { type LandmarkContrast, landmarkContrast, type TwoCurves } from "./survival/landmark-contrast.js";
export { type MeanTimeIntervalOptions, meanTimeInterval } from "./survival/mean-time-interval.js";
export { type RestrictedMeanContrast, restrictedMeanContrast } from "./survival/restricted-mean-contrast.js";
export {
  type SmallSampleInterval,
  shareDifference,
  shareInterval,
  studentInterval,
} from "./survival/small-sample.js";
export { standardisedCurves } from "./survival/standardised.js";
export type {
  CausesInStrata,
  EventsInStrata,
  GroupedInStrata,
  StandardisedCurves,
  StandardisedOptions,
  StandardisedShare,
  StandardisedValue,
  StratumLeftOut,
  StratumUsed,
} from "./survival/standardised-types.js";

// regression

export {
  type ProportionalityOptions,
  type ProportionalityTest,
  proportionalityTest,
  type TimeTransform,
} from "./hazards/diagnostics/proportionality.js";
export { hazardsRegression } from "./hazards/fit/hazards-regression.js";
export type { HazardFit, HazardOptions, HazardRatio, HazardStatus } from "./hazards/layout/hazard-fit.js";
export type { HazardColumns } from "./hazards/layout/sorted-rows.js";
export type { SummedTies, Ties } from "./hazards/layout/ties.js";
export {
  type AdjustedDifference,
  type AdjustedMean,
  type AdjustedOptions,
  type BaselineAdjusted,
  type BaselineAndFollowUp,
  baselineAdjusted,
} from "./regression/baseline-adjusted.js";
export { type BaselineTests, baselineTests } from "./regression/baseline-tests.js";
export { type FTest, testTogether } from "./regression/linear-hypothesis.js";
export { linearRegression } from "./regression/linear-regression.js";
export type { LinearColumns, LinearFit, LinearOptions } from "./regression/linear-types.js";
export type { Covariates } from "./shared/covariates.js";

// values: one sample

export { type Description, describe } from "./continuous/describe.js";
export { lagOneCorrelation } from "./continuous/lag-one-correlation.js";
export { type Interval, meanInterval, varianceInterval } from "./continuous/mean-and-variance.js";
export {
  type QuantileType,
  type SampleQuantile,
  type SampleQuantileOptions,
  sampleQuantile,
} from "./continuous/quantiles.js";

// values: two means

export { type MeanDifference, pairedMeanChange, welch } from "./continuous/mean-comparison.js";
export {
  type PermutationOfMeans,
  type PermutationOfMeansOptions,
  permutationOfMeans,
} from "./continuous/permutation-of-means.js";
export { studentT } from "./continuous/student-t.js";
export type { TwoSamples } from "./continuous/two-samples.js";

// values: standardised differences

export { noncentralTTails } from "./continuous/noncentral-t.js";
export {
  standardisedDifference,
  standardisedDifferenceOfShares,
} from "./continuous/standardised-difference.js";
export {
  type StandardisedChange,
  type StandardisedMeanDifference,
  standardisedChange,
  standardisedMeanDifference,
} from "./continuous/standardised-mean.js";

// values: rank tests

export { type ExactTails, rankSumDistribution, signedRankDistribution } from "./continuous/exact-ranks.js";
export type { NormalRankTest, RankTestOptions } from "./continuous/normal-rank-test.js";
export type { ApproximateLimits, ExactLimits, OrderLimits } from "./continuous/order-limits.js";
export { type RankSum, rankSum, type Shift } from "./continuous/rank-sum.js";
export {
  type Middle,
  type SignedRank,
  type SignedRankOptions,
  signedRank,
} from "./continuous/signed-rank.js";

// values: several groups

export { type AnalysisOfVariance, analysisOfVariance } from "./continuous/analysis-of-variance.js";
export type { GroupedValues } from "./continuous/groups-of-values.js";
export { rankTestOfGroups } from "./continuous/rank-test-of-groups.js";

// a proportion

export { type ProportionInterval, wilson } from "./continuous/wilson.js";

// many p-values at once

export { benjaminiHochberg, holm, type PValues } from "./comparison/multiplicity.js";

// distributions and random numbers

export {
  type Binomial,
  binomialDensity,
  binomialLowerTail,
  binomialQuantile,
  binomialUpperTail,
} from "./shared/binomial.js";
export {
  type BetaShape,
  betaLowerTail,
  betaQuantile,
  betaUpperTail,
  chiSquareLowerTail,
  chiSquareQuantile,
  chiSquareUpperTail,
  fLowerTail,
  fQuantile,
  fUpperTail,
  logGamma,
  normalCritical,
  normalDensity,
  normalLogLowerTail,
  normalLowerTail,
  normalQuantile,
  normalTwoSided,
  normalUpperTail,
  tCritical,
  tLowerTail,
  tQuantile,
  tTwoSided,
  tUpperTail,
} from "./shared/distributions.js";
export { type Generator, seededGenerator } from "./shared/random.js";
