// two outcomes: fit, then predict
export { logisticRegression } from "./logistic-regression.js";
export type {
  LogisticColumns,
  LogisticFit,
  LogisticOptions,
  LogisticStatus,
  LogisticTerm,
  OddsRatio,
  Separation,
} from "./logistic-types.js";
export { type LogisticPredictions, type PredictionOptions, predictedProbabilities } from "./predict.js";

// several categories

export { multinomialRegression } from "./multinomial-regression.js";
export type {
  CategoryTerms,
  MultinomialColumns,
  MultinomialFit,
  MultinomialOptions,
} from "./multinomial-types.js";
