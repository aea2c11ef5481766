import { normalCritical, normalTwoSided } from "../shared/distributions.js";
import type { Difference } from "./contrast.js";
import { shareFunctional } from "./functionals.js";
import { type RecoverableSum, recoverableSum, recoveredDifference } from "./recovered-limits.js";
import { atRiskAt } from "./risk-sets.js";
import { touchingZero } from "./score-limits.js";
import { sizedShare } from "./small-sample.js";
import type { Pair } from "./standardised-cells.js";
import {
  type CellFigure,
  type Standardisable,
  type StandardisedSums,
  standardisedSums,
} from "./standardised-sums.js";
import type { StandardisedShare, StandardisedValue } from "./standardised-types.js";

/** Share with the event by a time in both groups, with limits recovered from those of each stratum. */
export function standardisedShare(
  input: Standardisable,
  { time, level }: { readonly time: number; readonly level: number },
): StandardisedShare {
  const sums = standardisedSums(input, (prepared) => {
    // it moves as the share without the event does but for its sign
    const functional = shareFunctional(prepared, time);
    return { ...functional, value: 1 - functional.value };
  });
  const recoverable: Pair<RecoverableSum> = [
    recoverableOf(0, { input, sums, time }),
    recoverableOf(1, { input, sums, time }),
  ];
  const z = normalCritical(level);
  return {
    time,
    returned: [withLimits(0, { sums, recoverable, z }), withLimits(1, { sums, recoverable, z })],
    difference: differenceOf(sums, { recoverable, level }),
  };
}

interface Given {
  readonly input: Standardisable;
  readonly sums: StandardisedSums;
  readonly time: number;
}

/** The strata of a group as samples of the size that their errors tell, smaller where rows that belong together are alike. */
function recoverableOf(group: 0 | 1, { input, sums, time }: Given): RecoverableSum {
  const inflation = inflationOf(group, { input, sums });
  const shares = sums.cells[group]
    .filter(({ weight }) => weight > 0)
    .map((cell) => {
      const { share, size } = sizedShare(pointOf(cell, time));
      // where nobody was under observation yet, anything may be
      return { weight: cell.weight, share, size: Math.max(size / inflation, 1e-9) };
    });
  return recoverableSum(shares);
}

function pointOf({ prepared, value, variance }: CellFigure, time: number) {
  const { riskSets, own, competing } = prepared;
  let cumulativeCompeting = 0;
  for (let at = 0; at < riskSets.times.length && riskSets.times[at]! <= time; at++)
    cumulativeCompeting += competing?.[at] ?? 0;
  return {
    returned: Math.min(1, Math.max(0, value)),
    standardError: Math.sqrt(variance),
    atRisk: atRiskAt({ ...riskSets, events: own, competing }, time),
    cumulativeCompeting,
    n: riskSets.total,
  };
}

/**
 * How much larger the variance is than that of as many independent rows. Rows that belong together are never taken for less alike than independent
 * ones; where no variance is left to tell (nobody or everybody is back), they are taken for one.
 */
function inflationOf(group: 0 | 1, { input, sums }: Pick<Given, "input" | "sums">): number {
  if (!input.robust) return 1;
  const [naive, robust] = [sums.naive[group], sums.variances[group]];
  const weighted = sums.cells[group].some(({ prepared }) => prepared.weights !== undefined);
  if (naive > 0 && robust > 0) return weighted ? robust / naive : Math.max(1, robust / naive);
  const totals = new Float64Array(input.clusters.count);
  let total = 0;
  for (const { cells } of input.strata) {
    const { rows, prepared } = cells[group];
    rows.forEach((row, index) => {
      const weight = prepared.weights?.[index] ?? 1;
      totals[input.clusters.of[row]!]! += weight;
      total += weight;
    });
  }
  return totals.reduce((sum, own) => sum + own * own, 0) / total;
}

function withLimits(
  group: 0 | 1,
  found: {
    readonly sums: StandardisedSums;
    readonly recoverable: Pair<RecoverableSum>;
    readonly z: number;
  },
): StandardisedValue {
  const [lower, upper] = found.recoverable[group].limitsAt(found.z);
  const standardError = Math.sqrt(found.sums.variances[group]);
  return { estimate: found.sums.estimates[group], standardError, lower, upper, reason: null };
}

function differenceOf(
  { variances: [v0, v1], between }: StandardisedSums,
  { recoverable, level }: { readonly recoverable: Pair<RecoverableSum>; readonly level: number },
): Difference {
  const product = 2 * Math.sqrt(v0 * v1);
  const correlation = product > 0 ? Math.max(-1, Math.min(1, (v0 + v1 - between) / product)) : 0;
  const [b, a] = recoverable;
  const { estimate: difference, limitsAt } = recoveredDifference({ a, b }, { correlation });
  const [lower, upper] = limitsAt(normalCritical(level));
  const z = touchingZero(difference, limitsAt);
  const standardError = Math.sqrt(between);
  return { difference, standardError, lower, upper, z, p: normalTwoSided(z), level, reason: null };
}
