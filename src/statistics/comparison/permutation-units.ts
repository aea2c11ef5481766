import { ArgumentError } from "../shared/arguments.js";
import { clusterIndex } from "../shared/clusters.js";
import { indexOfCodes } from "../shared/codes.js";
import type { GroupedTimes } from "./grouped-times.js";

/** What is permuted: rows, or whole clusters. Groups and strata by index from 0. */
export interface PermutationUnits {
  /** Codes of the groups, ascending. */
  readonly groups: readonly number[];
  readonly score: Float64Array;
  readonly group: Int32Array;
  readonly stratum: Int32Array;
  readonly strata: number;
  /** Units by stratum and group, flat. */
  readonly size: Int32Array;
}

/** @throws ArgumentError for a cluster with rows in several groups or strata: it cannot be permuted as a whole */
export function permutationUnits(columns: GroupedTimes, scores: Float64Array): PermutationUnits {
  const n = columns.times.length;
  const groups = indexOfCodes(columns.groups);
  const strata = indexOfCodes(columns.strata ?? new Int32Array(n));
  const cluster = clusterIndex(columns);
  const score = new Float64Array(cluster.count);
  const group = new Int32Array(cluster.count).fill(-1);
  const stratum = new Int32Array(cluster.count);
  for (let row = 0; row < n; row++) {
    const unit = cluster.of[row]!;
    const own = { group: groups.index[row]!, stratum: strata.index[row]! };
    if (group[unit] === -1) {
      group[unit] = own.group;
      stratum[unit] = own.stratum;
    }
    if (group[unit] !== own.group || stratum[unit] !== own.stratum)
      throw new ArgumentError({
        argument: "clusters",
        index: row,
        expected: "a cluster within one group and one stratum, to be permuted as a whole",
        found: `${columns.clusters?.[row]}, whose rows lie in several`,
      });
    score[unit]! += scores[row]!;
  }
  const size = new Int32Array(strata.codes.length * groups.codes.length);
  for (let unit = 0; unit < group.length; unit++)
    size[stratum[unit]! * groups.codes.length + group[unit]!]!++;
  return { groups: groups.codes, score, group, stratum, strata: strata.codes.length, size };
}

/** Sum of the scores of each group when unit u is in group labels[u]. */
export function sumsByGroup(units: PermutationUnits, labels: ArrayLike<number>, into: Float64Array): void {
  into.fill(0);
  for (let unit = 0; unit < units.score.length; unit++) into[labels[unit]!]! += units.score[unit]!;
}

/**
 * Covariance of the groups' sums over all permutations, flat: sum over strata of s^2 (m_k [k = l] - m_k m_l / m), s^2 the variance of the scores of the
 * stratum's m units (divisor m - 1), m_k of them in group k.
 */
export function permutationCovariance(units: PermutationUnits): Float64Array {
  const { groups, score, stratum, strata, size } = units;
  const count = groups.length;
  const members = new Float64Array(strata);
  const squares = new Float64Array(strata);
  // the scores of a stratum sum to 0
  for (let unit = 0; unit < score.length; unit++) {
    members[stratum[unit]!]!++;
    squares[stratum[unit]!]! += score[unit]! ** 2;
  }
  const covariance = new Float64Array(count * count);
  for (let s = 0; s < strata; s++) {
    const m = members[s]!;
    if (m < 2) continue;
    const spread = squares[s]! / (m - 1);
    for (let k = 0; k < count; k++)
      for (let l = 0; l < count; l++) {
        const [a, b] = [size[s * count + k]!, size[s * count + l]!];
        covariance[k * count + l]! += spread * ((k === l ? a : 0) - (a * b) / m);
      }
  }
  return covariance;
}

/** Number of permutations that keep the size of each group in each stratum; may be Infinity. */
export function numberOfPermutations({ groups, strata, size }: PermutationUnits): number {
  let permutations = 1;
  for (let s = 0; s < strata; s++) {
    let placed = 0;
    for (let k = 0; k < groups.length; k++)
      for (let one = 1; one <= size[s * groups.length + k]!; one++) {
        placed++;
        permutations = (permutations * placed) / one;
      }
  }
  return Number.isFinite(permutations) && permutations < 2 ** 53 ? Math.round(permutations) : permutations;
}

/**
 * Every permutation once, by way of the groups' sums: `visit` is given an array used again for the next permutation.
 *
 * The sums of each step are kept apart, so that no rounding builds up; where only one group has places left the rest is added at once.
 */
export function forEachPermutation(units: PermutationUnits, visit: (sums: Float64Array) => void): void {
  const count = units.groups.length;
  const order = Array.from(units.score.keys()).sort((a, b) => units.stratum[a]! - units.stratum[b]!);
  const depth = order.length;
  const stratumOf = order.map((unit) => units.stratum[unit]!);
  const scoreOf = Float64Array.from(order, (unit) => units.score[unit]!);
  // where the stratum of a step ends, and the scores from the step to there
  const end = new Int32Array(depth);
  const rest = new Float64Array(depth);
  for (let i = depth - 1; i >= 0; i--) {
    const last = i === depth - 1 || stratumOf[i] !== stratumOf[i + 1];
    end[i] = last ? i + 1 : end[i + 1]!;
    rest[i] = scoreOf[i]! + (last ? 0 : rest[i + 1]!);
  }
  const left = Int32Array.from(units.size);
  const sums = Array.from({ length: depth + 1 }, () => new Float64Array(count));
  const assign = (at: number): void => {
    const own = sums[at] as Float64Array;
    if (at === depth) {
      visit(own);
      return;
    }
    const from = stratumOf[at]! * count;
    const places = end[at]! - at;
    for (let k = 0; k < count; k++) {
      const free = left[from + k]!;
      if (free === 0) continue;
      const alone = free === places;
      const next = alone ? end[at]! : at + 1;
      const after = sums[next] as Float64Array;
      after.set(own);
      after[k]! += alone ? rest[at]! : scoreOf[at]!;
      left[from + k] = free - (alone ? places : 1);
      assign(next);
      left[from + k] = free;
    }
  };
  assign(0);
}
