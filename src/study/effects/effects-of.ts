import type { ExactEffect } from "../exact-results.js";
import type { Grouping } from "../groups.js";
import { pairsOf } from "../pairs.js";
import type { Plan } from "../plan.js";
import { crudeLandmarkDifferences, crudeRestrictedMeanDifference } from "./crude.js";
import { distanceEffects } from "./distance-change.js";
import { hazardRatios } from "./hazard-ratio.js";
import { standardisedDifferences } from "./standardised.js";

/** Every effect of each group against the reference: crude beside adjusted, absolute beside relative. */
export function effectsOf(comparison: Grouping, plan: Plan): ExactEffect[] {
  return pairsOf(comparison, plan).flatMap((pair) => [
    ...crudeLandmarkDifferences(pair, plan),
    crudeRestrictedMeanDifference(pair, plan),
    ...standardisedDifferences(pair, plan),
    ...hazardRatios(pair, plan),
    ...distanceEffects(pair, plan),
  ]);
}
