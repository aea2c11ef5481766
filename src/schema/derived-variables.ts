import type { Covariate } from "./said-of-field.js";

/** What is told of an injury though no column of the injuries holds it: `cohort/` derives it from the linked tables. */
export const derivedVariables = {
  first_treatment: { covariate: "groups", label: "first treatment", unit: null },
  delay_days: { covariate: "number", label: "days from injury to first visit", unit: "d" },
  distance_loaded_first: {
    covariate: "number",
    label: "first loaded tendon-phalanx distance",
    unit: "mm",
  },
} as const satisfies Readonly<
  Record<string, { readonly covariate: Covariate; readonly label: string; readonly unit: string | null }>
>;
