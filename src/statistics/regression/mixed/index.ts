// repeated measurements: random intercepts, or intercepts and slopes
export { mixedRegression } from "./mixed-regression.js";
export type {
  GroupPrediction,
  JointTest,
  MixedColumns,
  MixedFit,
  MixedOptions,
  MixedStatus,
  MixedTerm,
  VarianceComponents,
  VarianceFigure,
  VarianceTest,
} from "./mixed-types.js";
