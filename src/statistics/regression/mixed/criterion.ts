import { type Blocks, blocksAt } from "./blocks.js";
import type { GroupSums } from "./group-sums.js";

export type Method = "reml" | "ml";

/** Minus twice the log-likelihood at a variance matrix, with its derivatives. */
export interface Deviance {
  readonly value: number;
  readonly blocks: Blocks;
  /** Residual variance: the best one, or the one given. */
  readonly variance: number;
  /** By the entries of L: value changes by the trace of slope times dL. Symmetric, flat. */
  readonly slope: Float64Array;
  /** By the logarithm of the residual variance; 0 at the best one. */
  readonly slopeOfLogVariance: number;
}

/**
 * N log s2 + e'We / s2 + log det (I + Z L Z') + N log 2 pi, with reml also log det X'WX + 2 log det R of the basis, so that it is that of the
 * caller's columns; N is n, with reml n - p.
 *
 * @param at ratio: L; logVariance: log of the residual variance, left out for the best one
 */
export function devianceAt(
  sums: GroupSums,
  at: { readonly ratio: Float64Array; readonly method: Method; readonly logVariance?: number },
): Deviance {
  const { n, p, q, basis, units, multiplicity } = sums;
  const blocks = blocksAt(sums, at.ratio);
  const { zwz, zwx, zwe, inverse } = blocks;
  const reml = at.method === "reml";
  const total = reml ? n - p : n;
  const variance = at.logVariance === undefined ? blocks.squares / total : Math.exp(at.logVariance);
  const restricted = reml ? blocks.logDetX + 2 * basis.logDeterminant : 0;
  const value =
    total * (Math.log(variance) + Math.log(2 * Math.PI)) +
    blocks.squares / variance +
    blocks.logDetV +
    restricted;
  const slope = new Float64Array(q * q);
  for (let g = 0; g < units; g++)
    for (let a = 0; a < q; a++)
      for (let b = 0; b <= a; b++) {
        let sum =
          multiplicity[g]! * zwz[(g * q + a) * q + b]! - (zwe[g * q + a]! * zwe[g * q + b]!) / variance;
        if (reml)
          for (let i = 0; i < p; i++) {
            let moved = 0;
            for (let j = 0; j < p; j++) moved += inverse[i * p + j]! * zwx[(g * q + b) * p + j]!;
            sum -= zwx[(g * q + a) * p + i]! * moved;
          }
        slope[a * q + b]! += sum;
      }
  if (q === 2) slope[1] = slope[2]!;
  return { value, blocks, variance, slope, slopeOfLogVariance: total - blocks.squares / variance };
}
