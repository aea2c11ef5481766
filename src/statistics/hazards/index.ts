// the regression kept with its sorted rows

export { type HazardModel, hazardModel } from "./fit/model.js";
export type { SummedTies, Ties } from "./layout/ties.js";

// few events

export { automaticHazardsRegression, type ChosenHazardFit } from "./penalised/automatic-regression.js";
export {
  type PenalisedHazardFit,
  type PenalisedOptions,
  type PenalisedRatio,
  penalisedHazardsRegression,
} from "./penalised/penalised-regression.js";

// few clusters: several fingers of a person

export {
  type ClusteredHazardColumns,
  type ClusteredHazardFit,
  type ClusteredHazardRatio,
  clusteredHazardRatios,
} from "./clusters/clustered-ratios.js";

// what a fitted model says: hazards and curves

export {
  type BaselineHazard,
  type BaselineOptions,
  baselineHazard,
  type StratumHazard,
} from "./prediction/baseline-hazard.js";
export {
  type PredictedCurve,
  type PredictedCurves,
  type PredictedOptions,
  predictedCurves,
} from "./prediction/predicted-curves.js";

// how well it fits

export {
  type Concordance,
  concordance,
  hazardConcordance,
  type ScoredTimes,
} from "./diagnostics/concordance.js";
export { type EventResiduals, type HazardResiduals, hazardResiduals } from "./diagnostics/residuals.js";

// everybody set to one value (g-formula)

export { standardisedPredictions } from "./prediction/standardised-predictions.js";
export type {
  Population,
  Setting,
  StandardisedContrast,
  StandardisedMean,
  StandardisedOptions as StandardisedPredictionOptions,
  StandardisedPredictions,
  StandardisedSetting,
} from "./prediction/standardised-types.js";

// a frailty shared by the fingers of a person or the persons of a site

export { frailtyRegression } from "./frailty/frailty-regression.js";
export type {
  FrailtyColumns,
  FrailtyHazardFit,
  FrailtyOptions,
  FrailtyVariance,
} from "./frailty/frailty-types.js";
