// readings by several raters

export {
  type IntraclassCorrelation,
  type IntraclassOptions,
  intraclassCorrelation,
} from "./intraclass-correlation.js";
export type { IntraclassForm, IntraclassPair } from "./intraclass-forms.js";
export type { MeanSquares, Ratings } from "./mean-squares.js";
export {
  type ErrorOfReading,
  type MeasurementError,
  type MeasurementErrorOptions,
  measurementError,
} from "./measurement-error.js";
export {
  type RaterComponents,
  type RaterComponentsOptions,
  raterComponents,
} from "./rater-components.js";
export type { ComponentCorrelation, ComponentShares } from "./rater-intervals.js";
export type { RaterReadings } from "./rater-patterns.js";
export {
  type Repeatability,
  type RepeatabilityOptions,
  type RepeatedReadings,
  repeatability,
} from "./repeatability.js";

// two methods of measurement

export { type ConcordanceCorrelation, concordanceCorrelation } from "./concordance-correlation.js";
export {
  type LimitInterval,
  type LimitOfAgreement,
  type LimitsOfAgreement,
  type LimitsOptions,
  limitsOfAgreement,
} from "./limits-of-agreement.js";
export { limitsOfRepeatedPairs } from "./limits-of-repeated-pairs.js";
export { limitsOfReplicates } from "./limits-of-replicates.js";
export type { PairedReadings } from "./paired-readings.js";
export {
  type LimitsByMagnitude,
  type LimitsByMagnitudeOptions,
  limitsByMagnitude,
  type MagnitudeLine,
  type ProportionalBias,
  proportionalBias,
} from "./proportional-bias.js";
export type { RepeatedLimit } from "./repeated-limit-intervals.js";
export type { RepeatedLimits, RepeatedLimitsOptions } from "./repeated-limits.js";

// categories by two raters or more

export { type AgreementShares, agreementShares } from "./agreement-shares.js";
export { type ClusteredKappa, type ClusteredRatedPairs, clusteredKappa } from "./clustered-kappa.js";
export { type Kappa, type KappaNote, type KappaOptions, kappa, kappaOfTable } from "./kappa.js";
export { type AgreementTable, agreementTable, type RatedPairs } from "./kappa-table.js";
export type { KappaWeights } from "./kappa-weights.js";
export {
  type ChosenCategories,
  type SeveralRatersKappa,
  severalRatersKappa,
} from "./several-raters-kappa.js";

// a threshold against a reference standard

export { type ClusteredAccuracy, type ClusteredReadings, clusteredAccuracy } from "./clustered-accuracy.js";
export {
  type AreaComparison,
  type AreaComparisonOptions,
  compareAreas,
  type RocArea,
  type RocAreaOptions,
  rocArea,
  type TwoReadings,
} from "./roc-area.js";
export { type RocCurve, rocCurve } from "./roc-curve.js";
export type { Direction } from "./roc-placements.js";
export {
  type AccuracyCounts,
  type AccuracyOptions,
  accuracyAt,
  accuracyOfCounts,
  type LikelihoodRatio,
  type PositiveWhen,
  type ReadingsAndStates,
  type TestAccuracy,
} from "./test-accuracy.js";
export {
  type Corrected,
  chooseThreshold,
  type ThresholdChoice,
  type ThresholdChoiceOptions,
} from "./threshold-choice.js";
