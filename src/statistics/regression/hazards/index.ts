// the regression kept with its sorted rows

export { type HazardModel, hazardModel } from "./model.js";
export type { SummedTies, Ties } from "./ties.js";

// few events

export { automaticHazardsRegression, type ChosenHazardFit } from "./automatic-regression.js";
export {
  type PenalisedHazardFit,
  type PenalisedOptions,
  type PenalisedRatio,
  penalisedHazardsRegression,
} from "./penalised-regression.js";

// few clusters: several fingers of a person

export {
  type ClusteredHazardColumns,
  type ClusteredHazardFit,
  type ClusteredHazardRatio,
  clusteredHazardRatios,
} from "./clustered-ratios.js";

// what a fitted model says: hazards and curves

export {
  type BaselineHazard,
  type BaselineOptions,
  baselineHazard,
  type StratumHazard,
} from "./baseline-hazard.js";
export {
  type PredictedCurve,
  type PredictedCurves,
  type PredictedOptions,
  predictedCurves,
} from "./predicted-curves.js";

// how well it fits

export { type Concordance, concordance, hazardConcordance, type ScoredTimes } from "./concordance.js";
export { type EventResiduals, type HazardResiduals, hazardResiduals } from "./residuals.js";

// everybody set to one value (g-formula)

export { standardisedPredictions } from "./standardised-predictions.js";
export type {
  Population,
  Setting,
  StandardisedContrast,
  StandardisedMean,
  StandardisedOptions as StandardisedPredictionOptions,
  StandardisedPredictions,
  StandardisedSetting,
} from "./standardised-types.js";

// a frailty shared by the fingers of a person or the persons of a site

export { frailtyRegression } from "./frailty-regression.js";
export type { FrailtyColumns, FrailtyHazardFit, FrailtyOptions, FrailtyVariance } from "./frailty-types.js";
