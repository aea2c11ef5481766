import type { Plan } from "../study/plan.js";
import type { Results } from "../study/results.js";

export interface PairedDistancesData {
  readonly distances: Distances;
  readonly plan: Plan;
}

export type Distances = NonNullable<Results["distances"]>;
