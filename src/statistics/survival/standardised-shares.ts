import { normalCritical, normalTwoSided } from "../shared/distributions.js";
import { shareFunctional } from "./functionals.js";
import { type RecoverableSum, recoverableSum, recoveredDifference } from "./recovered-limits.js";
import { atRiskAt } from "./risk-sets.js";
import { touchingZero } from "./score-limits.js";
import { sizedShare } from "./small-sample.js";
import type { Cell, Pair } from "./standardised-cells.js";
import {
  type CellFigure,
  figureOf,
  type Standardisable,
  type StandardisedSums,
  standardisedSums,
  type WeightedFigure,
} from "./standardised-sums.js";
import type { StandardisedShare, StandardisedValue } from "./standardised-types.js";

/** A share of one group within one stratum, and what its limits are taken from. */
export interface ShareFigure extends CellFigure {
  readonly atRisk: number;
  /** Known by this time to be without the event for good. */
  readonly settled: number;
}

/** Share with the event by a time in both groups, with limits recovered from those of each stratum. */
export const standardisedShare = (
  input: Standardisable,
  { time, level }: { readonly time: number; readonly level: number },
): StandardisedShare => standardisedShareOf(input, { time, level, figureIn: (cell) => shareIn(cell, time) });

/** The same of shares that are estimated in another way. */
export function standardisedShareOf(
  input: Standardisable,
  {
    time,
    level,
    figureIn,
  }: {
    readonly time: number;
    readonly level: number;
    readonly figureIn: (cell: Cell, group: 0 | 1) => ShareFigure;
  },
): StandardisedShare {
  const found = sharesOf(input, figureIn);
  const critical = normalCritical(level);
  const { estimate: difference, standardError, z, limitsAt } = recoveredOf(found);
  const [lower, upper] = limitsAt(critical);
  return {
    time,
    returned: [withLimits(0, { ...found, z: critical }), withLimits(1, { ...found, z: critical })],
    difference: { difference, standardError, lower, upper, z, p: normalTwoSided(z), level, reason: null },
  };
}

/** A difference of shares, group 1 less group 0, with the limits that it has at each z and the z at which one of them is 0. */
export interface RecoveredDifference extends RecoverableSum {
  readonly standardError: number;
  readonly z: number;
}

/** The difference of the shares with the event by a time. */
export const differenceOfShares = (input: Standardisable, time: number): RecoveredDifference =>
  recoveredOf(sharesOf(input, (cell) => shareIn(cell, time)));

interface Shares {
  readonly sums: StandardisedSums<ShareFigure>;
  readonly recoverable: Pair<RecoverableSum>;
}

function sharesOf(input: Standardisable, figureIn: (cell: Cell, group: 0 | 1) => ShareFigure): Shares {
  const sums = standardisedSums(input, figureIn);
  return { sums, recoverable: [recoverableOf(0, { input, sums }), recoverableOf(1, { input, sums })] };
}

function shareIn({ prepared }: Cell, time: number): ShareFigure {
  const { riskSets, own, competing } = prepared;
  const functional = shareFunctional(prepared, time);
  let settled = 0;
  for (let i = 0; i < riskSets.times.length && riskSets.times[i]! <= time; i++)
    settled += competing?.[i] ?? 0;
  return {
    ...figureOf(prepared, functional),
    // it moves as the share without the event does but for its sign
    value: 1 - functional.value,
    atRisk: atRiskAt({ ...riskSets, events: own, competing }, time),
    settled,
  };
}

interface Given {
  readonly input: Standardisable;
  readonly sums: StandardisedSums<ShareFigure>;
}

/** The strata of a group as samples of the size that their errors tell, smaller where rows that belong together are alike. */
function recoverableOf(group: 0 | 1, { input, sums }: Given): RecoverableSum {
  const inflation = inflationOf(group, { input, sums });
  const shares = sums.cells[group]
    .filter(({ weight }) => weight > 0)
    .map((one) => {
      const { share, size } = sizedShare(pointOf(one));
      // where nobody was under observation yet, anything may be
      return { weight: one.weight, share, size: Math.max(size / inflation, 1e-9) };
    });
  return recoverableSum(shares);
}

const pointOf = ({ cell, figure }: WeightedFigure<ShareFigure>) => ({
  returned: Math.min(1, Math.max(0, figure.value)),
  standardError: Math.sqrt(figure.variance),
  atRisk: figure.atRisk,
  cumulativeCompeting: figure.settled,
  n: cell.prepared.riskSets.total,
});

/**
 * How much larger the variance is than that of as many independent rows. Rows that belong together are never taken for less alike than independent
 * ones; where no variance is left to tell (nobody or everybody is back), they are taken for one.
 */
function inflationOf(group: 0 | 1, { input, sums }: Given): number {
  if (!input.robust) return 1;
  const [naive, robust] = [sums.naive[group], sums.variances[group]];
  const weighted = sums.cells[group].some(({ cell }) => cell.prepared.weights !== undefined);
  if (naive > 0 && robust > 0) return weighted ? robust / naive : Math.max(1, robust / naive);
  const totals = new Float64Array(input.clusters.count);
  let total = 0;
  for (const { cells } of input.strata) {
    const { rows, prepared } = cells[group];
    rows.forEach((row, i) => {
      const weight = prepared.weights?.[i] ?? 1;
      totals[input.clusters.of[row]!]! += weight;
      total += weight;
    });
  }
  return totals.reduce((sum, own) => sum + own * own, 0) / total;
}

function withLimits(
  group: 0 | 1,
  found: {
    readonly sums: StandardisedSums<ShareFigure>;
    readonly recoverable: Pair<RecoverableSum>;
    readonly z: number;
  },
): StandardisedValue {
  const [lower, upper] = found.recoverable[group].limitsAt(found.z);
  const standardError = Math.sqrt(found.sums.variances[group]);
  return { estimate: found.sums.estimates[group], standardError, lower, upper, reason: null };
}

function recoveredOf({ sums, recoverable: [b, a] }: Shares): RecoveredDifference {
  const [v0, v1] = sums.variances;
  const product = 2 * Math.sqrt(v0 * v1);
  const correlation = product > 0 ? Math.max(-1, Math.min(1, (v0 + v1 - sums.between) / product)) : 0;
  const { estimate, limitsAt } = recoveredDifference({ a, b }, { correlation });
  return { estimate, limitsAt, standardError: Math.sqrt(sums.between), z: touchingZero(estimate, limitsAt) };
}
