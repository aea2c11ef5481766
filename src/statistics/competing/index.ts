// several possible ends: rates, shares, comparisons

export { type CauseSpecificColumns, type CauseSpecificFit, causeSpecificHazards } from "./cause-specific.js";
export type { TimesAndCauses } from "./causes.js";
export { type GrayOptions, type GrayTest, grayTest } from "./gray-test.js";
export type { GroupedCauses } from "./grouped-causes.js";
export { type PredictedIncidence, subdistributionIncidence } from "./subdistribution-incidence.js";
export { subdistributionRegression } from "./subdistribution-regression.js";
export type {
  SubdistributionBaseline,
  SubdistributionColumns,
  SubdistributionFit,
  SubdistributionOptions,
} from "./subdistribution-types.js";
