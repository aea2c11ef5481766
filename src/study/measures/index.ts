// The measures of a difference between two groups, and what is known of each

export {
  type EffectUnit,
  effectUnits,
  type MeasureFacts,
} from "./measure.js";
export {
  type EffectMethod,
  effectMethods,
  type MeasureKey,
  measureKeys,
  measureOf,
  measures,
  sideOf,
} from "./measures.js";
