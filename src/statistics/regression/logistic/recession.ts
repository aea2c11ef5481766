import { eigenSymmetric } from "../../linear/eigen.js";
import { factorSymmetric, solveFactored } from "../../linear/symmetric.js";
import { weightedProducts } from "./products.js";

/** Vectors z, flat by rows, such that the likelihood never falls along a direction d with z'd >= 0 for all of them. */
export interface Margins {
  readonly count: number;
  readonly size: number;
  readonly z: Float64Array;
}

/** Where a likelihood goes that has no finite maximum. */
export interface Recession {
  /** Unit directions; the first outweighs the second, and so on. */
  readonly directions: readonly Float64Array[];
  /** 1 for each vector that a direction pulls to infinity: it takes no part in the limit. */
  readonly strict: Uint8Array;
  /** Orthonormal vectors that span what the remaining vectors determine. */
  readonly determined: readonly Float64Array[];
  /** Orthonormal vectors along which the limit is constant. */
  readonly undetermined: readonly Float64Array[];
}

/** Share of a unit vector below which an inner product counts as 0. */
const nothing = 1e-8;
/** The same while a direction is looked for: equal rows differ by rounding once they are written on a basis. */
const rounding = 1e-9;

const lengthOf = (vector: Float64Array): number => Math.sqrt(vector.reduce((sum, x) => sum + x * x, 0));

function unitMargins({ count, size, z }: Margins): Margins {
  const unit = z.slice();
  for (let i = 0; i < count; i++) {
    let squares = 0;
    for (let j = 0; j < size; j++) squares += z[i * size + j]! ** 2;
    const length = Math.sqrt(squares);
    if (length > 0) for (let j = 0; j < size; j++) unit[i * size + j]! /= length;
  }
  return { count, size, z: unit };
}

const along = ({ z, size }: Margins, at: number, d: Float64Array): number => {
  let sum = 0;
  for (let j = 0; j < size; j++) sum += z[at * size + j]! * d[j]!;
  return sum;
};

/** Non-negative coefficients over the chosen vectors, in their place, moved as far towards the least-squares ones as signs allow. */
function balance(margins: Margins, state: { chosen: number[]; part: number[]; target: Float64Array }): void {
  const { size, z } = margins;
  for (;;) {
    const { chosen, part, target } = state;
    const count = chosen.length;
    const gram = new Float64Array(count * count);
    const right = chosen.map((a, i) => {
      const vector = z.subarray(a * size, (a + 1) * size);
      chosen.forEach((b, j) => {
        gram[i * count + j] = along(margins, b, vector);
      });
      return vector.reduce((sum, x, j) => sum + x * target[j]!, 0);
    });
    const best = solveFactored(factorSymmetric(gram, { size: count, tolerance: 1e-13 }), right);
    if (best.every((value) => value > 0)) {
      state.part = Array.from(best);
      return;
    }
    let step = 1;
    best.forEach((value, i) => {
      if (value <= 0) step = Math.min(step, part[i]! / (part[i]! - value));
    });
    const moved = part.map((value, i) => value + step * (best[i]! - value));
    const stays = moved.map((value, i) => value > 1e-14 && !(best[i]! <= 0 && value <= 1e-12));
    state.chosen = chosen.filter((_, i) => stays[i]);
    state.part = moved.filter((_, i) => stays[i]);
    if (state.chosen.length === count || state.chosen.length === 0) return;
  }
}

/**
 * A unit direction d with z'd >= 0 for all remaining vectors and > 0 for some, or null where there is none.
 *
 * Minus the mean of the vectors is projected on the cone that they span (non-negative least squares). What is left over is 0 where the
 * vectors balance, and else, turned round, is such a direction; it is believed only when every vector has been tried on it.
 */
function directionOf(margins: Margins, remaining: readonly number[]): Float64Array | null {
  const { size, z } = margins;
  const target = new Float64Array(size);
  for (const at of remaining)
    for (let j = 0; j < size; j++) target[j]! -= z[at * size + j]! / remaining.length;
  const state = { chosen: [] as number[], part: [] as number[], target };
  let left = target.slice();
  for (let round = 0; round < 30 * (size + 1); round++) {
    let best = -1;
    let most = rounding * lengthOf(left);
    for (const at of remaining) {
      const value = along(margins, at, left);
      if (value > most && !state.chosen.includes(at)) {
        most = value;
        best = at;
      }
    }
    if (best < 0) break;
    state.chosen.push(best);
    state.part.push(0);
    balance(margins, state);
    left = target.slice();
    state.chosen.forEach((at, i) => {
      for (let j = 0; j < size; j++) left[j]! -= state.part[i]! * z[at * size + j]!;
    });
  }
  const length = lengthOf(left);
  if (!(length > 0)) return null;
  const direction = left.map((x) => -x / length);
  let least = Number.POSITIVE_INFINITY;
  let most = 0;
  for (const at of remaining) {
    const value = along(margins, at, direction);
    if (value < least) least = value;
    if (value > most) most = value;
  }
  return least >= -nothing && most > nothing ? direction : null;
}

/**
 * Decides whether a logistic likelihood has a finite maximum, exactly but for rounding: it has none if and only if some direction satisfies
 * z'd >= 0 for all vectors and z'd > 0 for one. Vectors that are pulled to infinity are taken out and the rest asked again, until what
 * remains has a maximum of its own.
 *
 * @returns null where there is a finite maximum
 * @source Albert & Anderson 1984, Biometrika 71:1 (separation); Geyer 2009, Electron J Stat 3:259 (the limit); Lawson & Hanson 1974, Solving
 *   Least Squares Problems (non-negative least squares)
 */
export function recession(given: Margins): Recession | null {
  const margins = unitMargins(given);
  const { count, size, z } = margins;
  const strict = new Uint8Array(count);
  const directions: Float64Array[] = [];
  let remaining = Array.from({ length: count }, (_, i) => i);
  while (remaining.length > 0) {
    const direction = directionOf(margins, remaining);
    if (direction === null) break;
    directions.push(direction);
    for (const at of remaining) if (along(margins, at, direction) > nothing) strict[at] = 1;
    remaining = remaining.filter((at) => strict[at] === 0);
  }
  if (directions.length === 0) return null;
  const shares = Float64Array.from(strict, (one) => (one === 1 ? 0 : 1 / remaining.length));
  const gram = weightedProducts({ x: z, rows: count, size }, shares);
  const { values, vectors } = eigenSymmetric(gram, size);
  const counts = (k: number): boolean => values[k]! > 1e-12;
  return {
    directions,
    strict,
    determined: vectors.filter((_, k) => counts(k)),
    undetermined: vectors.filter((_, k) => !counts(k)),
  };
}
