// errors and missing figures

export { ArgumentError } from "./arguments.js";
export type { Estimate, Figure, Reason, TestResult } from "./figure.js";

// time to event: rows and risk sets

export { numberAtRisk, prepareRiskSets, type RiskSets } from "./survival/risk-sets.js";
export type { TimeToEvent } from "./survival/time-to-event.js";

// time to event: one group

export type { IntervalScale } from "./survival/curve-intervals.js";
export { type Completeness, completenessOfFollowUp, followUpMedian } from "./survival/follow-up.js";
export {
  type Curve,
  type CurveOptions,
  productLimit,
  productLimitOf,
  type VarianceKind,
} from "./survival/product-limit.js";
export { type QuantileOptions, type QuantileTime, quantileTime } from "./survival/quantile-time.js";
export {
  type RestrictedMean,
  type RestrictedMeanOptions,
  restrictedMean,
} from "./survival/restricted-mean.js";
export { type ShareAt, shareAt } from "./survival/share-at.js";

// time to event: competing events

export {
  type CauseIncidence,
  type CompetingEvents,
  type CumulativeIncidence,
  cumulativeIncidence,
} from "./survival/cumulative-incidence.js";
export { type IncidenceAt, incidenceAt } from "./survival/incidence-at.js";

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
  type ContrastOptions,
  type Difference,
  differenceOf,
  type Ratio,
  ratioOf,
} from "./survival/contrast.js";
export { standardisedCurves } from "./survival/standardised.js";
export type {
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
  type AdjustedDifference,
  type AdjustedMean,
  type AdjustedOptions,
  type BaselineAdjusted,
  type BaselineAndFollowUp,
  baselineAdjusted,
} from "./regression/baseline-adjusted.js";
export type { Covariates } from "./regression/covariates.js";
export type { HazardFit, HazardOptions, HazardRatio, HazardStatus } from "./regression/hazard-fit.js";
export type { HazardColumns } from "./regression/hazards-layout.js";
export type { Ties } from "./regression/hazards-pass.js";
export { hazardsRegression } from "./regression/hazards-regression.js";
export { linearRegression } from "./regression/linear-regression.js";
export type { LinearColumns, LinearFit, LinearOptions } from "./regression/linear-types.js";
export {
  type ProportionalityOptions,
  type ProportionalityTest,
  proportionalityTest,
  type TimeTransform,
} from "./regression/proportionality.js";

// means, shares, balance

export { type Description, describe } from "./continuous/describe.js";
export { type MeanDifference, pairedMeanChange, welch } from "./continuous/mean-comparison.js";
export {
  standardisedDifference,
  standardisedDifferenceOfShares,
} from "./continuous/standardised-difference.js";
export { type ProportionInterval, wilson } from "./continuous/wilson.js";

// distributions and random numbers

export {
  chiSquareQuantile,
  chiSquareUpperTail,
  fQuantile,
  fUpperTail,
  normalCritical,
  normalQuantile,
  normalTwoSided,
  normalUpperTail,
  tCritical,
  tQuantile,
  tTwoSided,
  tUpperTail,
} from "./distributions.js";
export { type Generator, seededGenerator } from "./random.js";
