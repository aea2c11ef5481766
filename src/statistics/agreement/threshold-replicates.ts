import { countDrawer, type ResamplingPlan } from "../resampling/plan.js";
import { seededGenerator } from "../shared/random.js";
import type { Cuts } from "./threshold-cuts.js";

/** The chosen cut, and the rows positive there. */
export interface Best {
  readonly at: number;
  readonly tied: number;
  readonly affected: number;
  readonly healthy: number;
}

/** One pass over the counts; indices compared as whole numbers. Null without one of the states. */
export function bestCut(
  { affectedAt, healthyAt }: Pick<Cuts, "affectedAt" | "healthyAt">,
  totals: { readonly affected: number; readonly healthy: number },
): Best | null {
  if (totals.affected === 0 || totals.healthy === 0) return null;
  let best = { at: -1, tied: 0, affected: 0, healthy: 0 };
  let most = Number.NEGATIVE_INFINITY;
  let affected = 0;
  let healthy = 0;
  for (let i = 0; i < affectedAt.length; i++) {
    const own = affectedAt[i]! + healthyAt[i]!;
    affected += affectedAt[i]!;
    healthy += healthyAt[i]!;
    // a reading that the replicate does not hold is no threshold of it
    if (own === 0) continue;
    const index = affected * totals.healthy - healthy * totals.affected;
    if (index < most) continue;
    best = { at: i, tied: index === most ? best.tied + 1 : 1, affected, healthy };
    most = index;
  }
  return best;
}

/** Chosen cut of each replicate, and by how much each share is better there than in the rows themselves. */
export function replicateChoices(
  {
    plan,
    cuts,
    states,
  }: { readonly plan: ResamplingPlan; readonly cuts: Cuts; readonly states: ArrayLike<number> },
  { seed, replicates }: { readonly seed: number; readonly replicates: number },
): { chosen: number[]; sensitivity: number[]; specificity: number[] } {
  const size = cuts.thresholds.length;
  const counts = new Float64Array(plan.n);
  const affectedAt = new Float64Array(size);
  const healthyAt = new Float64Array(size);
  const draw = countDrawer(plan);
  const affectedUpTo = upTo(cuts.affectedAt);
  const healthyUpTo = upTo(cuts.healthyAt);
  const result = { chosen: [] as number[], sensitivity: [] as number[], specificity: [] as number[] };
  for (let replicate = 0; replicate < replicates; replicate++) {
    draw(seededGenerator(seed, replicate), counts);
    affectedAt.fill(0);
    healthyAt.fill(0);
    const totals = { affected: 0, healthy: 0 };
    for (let row = 0; row < plan.n; row++) {
      const count = counts[row]!;
      const at = cuts.place[row]!;
      if (states[row] === 1) {
        affectedAt[at]! += count;
        totals.affected += count;
      } else {
        healthyAt[at]! += count;
        totals.healthy += count;
      }
    }
    const best = bestCut({ affectedAt, healthyAt }, totals);
    if (best === null) continue;
    result.chosen.push(best.at);
    result.sensitivity.push(best.affected / totals.affected - affectedUpTo[best.at]! / cuts.affected);
    result.specificity.push(healthyUpTo[best.at]! / cuts.healthy - best.healthy / totals.healthy);
  }
  return result;
}

function upTo(counts: Float64Array): Float64Array {
  let sum = 0;
  return counts.map((count) => {
    sum += count;
    return sum;
  });
}
