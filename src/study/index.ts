// The study file

// The answer
export { type AnswerOptions, answer } from "./answer.js";
export { estimandOfEffect, estimandOfFamily } from "./estimands.js";
export type { ExactCurve, ExactPoint, ExactResults } from "./exact-results.js";
export { type MeasureFacts, type MeasureKey, measureKeys, measureOf, sideOf } from "./measures/index.js";
export { type Plan, type PlanAsWritten, planSchema, usualWindows } from "./plan.js";
export { PlanError } from "./plan-error.js";
export { readPlan } from "./read-plan.js";
export type {
  CohortCell,
  CohortRow,
  Count,
  CurveFamily,
  CurvePoint,
  CurveResult,
  EffectResult,
  Estimand,
  Estimate,
  ReasonCode,
  Results,
  TestResult,
  Warning,
} from "./results.js";
export { resultsSchema } from "./results.js";
export { fewestRows, usualSmallestCell, withoutSmallCells } from "./small-cells/index.js";
export { roundedTimes, type Specification, specificationOf } from "./specification.js";
