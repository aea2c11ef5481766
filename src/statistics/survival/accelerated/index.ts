export type { AcceleratedColumns } from "./accelerated-columns.js";
export {
  type ChosenLaw,
  type CompareLawsOptions,
  chooseLaw,
  compareLaws,
  type LawInComparison,
} from "./accelerated-comparison.js";
export type {
  AcceleratedFit,
  AcceleratedOptions,
  AcceleratedRatio,
  AcceleratedStatus,
} from "./accelerated-fit.js";
export { acceleratedModel } from "./accelerated-model.js";
export {
  acceleratedPrediction,
  type PredictedShare,
  type PredictedTime,
  type Prediction,
  type PredictionOptions,
} from "./accelerated-prediction.js";
export type { TimeLaw } from "./error-laws.js";
