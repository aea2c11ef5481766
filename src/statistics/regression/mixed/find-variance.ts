import { minimise } from "../../linear/quasi-newton.js";
import { rootBetween } from "../../shared/root.js";
import { type Deviance, devianceAt, type Method } from "./criterion.js";
import type { GroupSums } from "./group-sums.js";

/** The variance matrix of the group effects over the residual variance at which the likelihood is largest. */
export interface FoundVariance {
  /** Flat, q x q. */
  readonly ratio: Float64Array;
  /** Its lower triangular root: one entry, or (1,1), (2,1), (2,2). */
  readonly root: Float64Array;
  readonly at: Deviance;
  readonly boundary: boolean;
  readonly iterations: number;
  readonly converged: boolean;
  readonly finalGradient: number;
}

/** L = C C' from the lower triangle of C. */
export function ratioOf(root: ArrayLike<number>): Float64Array {
  const [a, b, d] = [root[0]!, root[1] ?? 0, root[2] ?? 0];
  if (root.length === 1) return Float64Array.of(a * a);
  return Float64Array.of(a * a, a * b, a * b, b * b + d * d);
}

/** Derivatives by the entries of the root from those by the entries of L. */
export function slopeOfRoot(root: ArrayLike<number>, slope: Float64Array): Float64Array {
  const [a, b, d] = [root[0]!, root[1] ?? 0, root[2] ?? 0];
  if (root.length === 1) return Float64Array.of(2 * slope[0]! * a);
  return Float64Array.of(
    2 * (slope[0]! * a + slope[1]! * b),
    2 * (slope[2]! * a + slope[3]! * b),
    2 * slope[3]! * d,
  );
}

/** Ratios at which the slope is looked at: every change from falling to rising holds a maximum of the likelihood. */
const looks = [0, 1e-4, 1e-2, 0.1, 0.4, 1.5, 6, 25, 100, 1e3, 1e5, 1e8];

/** One variance: all roots of the derivative, and the border, compared. */
export function findRatio(sums: GroupSums, method: Method): FoundVariance | null {
  let iterations = 0;
  const at = (ratio: number): Deviance => {
    iterations++;
    return devianceAt(sums, { ratio: Float64Array.of(ratio), method });
  };
  const slopeAt = (ratio: number): number => at(ratio).slope[0]!;
  const slopes = looks.map(slopeAt);
  const candidates: number[] = slopes[0]! >= 0 ? [0] : [];
  for (let k = 1; k < looks.length; k++) {
    if (!(slopes[k - 1]! < 0 && slopes[k]! >= 0)) continue;
    candidates.push(rootBetween(slopeAt, [looks[k - 1]!, looks[k]!]));
  }
  const found = candidates
    .map((ratio) => ({ ratio, deviance: at(ratio) }))
    .sort((a, b) => a.deviance.value - b.deviance.value)[0];
  if (found === undefined) return null;
  const { ratio, deviance } = found;
  return {
    ratio: Float64Array.of(ratio),
    root: Float64Array.of(Math.sqrt(ratio)),
    at: deviance,
    boundary: ratio === 0,
    iterations,
    converged: true,
    finalGradient: ratio === 0 ? 0 : Math.abs(deviance.slope[0]!) / 2,
  };
}

/** A spread of what is left of the second effect below this part of the whole is none. */
const none = 1e-6;

/** Where a matrix of rank below 2 is no maximum, the likelihood still rises along what it leaves out. */
function rises({ root, slope }: { root: Float64Array; slope: Float64Array }): boolean {
  const length = Math.hypot(root[0]!, root[1]!);
  const [u, v] = length === 0 ? [0, 1] : [-root[1]! / length, root[0]! / length];
  return slope[0]! * u * u + 2 * slope[1]! * u * v + slope[3]! * v * v < -1e-6;
}

/** Intercept and slope: the root of the matrix is unconstrained, so a border is an ordinary point of it. */
export function findMatrix(sums: GroupSums, method: Method): FoundVariance | null {
  const objective = {
    evaluate: (root: Float64Array) => {
      const { value, slope } = devianceAt(sums, { ratio: ratioOf(root), method });
      return { value, gradient: slopeOfRoot(root, slope) };
    },
  };
  const starts = [0.3, 1, 3].flatMap((a) => [0.1, 0.5, 2].map((d) => Float64Array.of(a, 0, d)));
  const start = starts
    .map((root) => ({ root, value: objective.evaluate(root).value }))
    .sort((a, b) => a.value - b.value)[0]?.root as Float64Array;
  const options = { tolerance: 1e-8 * Math.sqrt(sums.n), maximumIterations: 300 };
  let best = minimise(objective, { start, ...options });
  let iterations = best.iterations;
  for (let again = 0; again < 3; again++) {
    const { root, isFlat } = settled(best.point);
    if (!isFlat) break;
    const there = devianceAt(sums, { ratio: ratioOf(root), method });
    if (!rises({ root, slope: there.slope })) break;
    best = minimise(objective, { start: Float64Array.of(root[0]!, root[1]!, 0.2), ...options });
    iterations += best.iterations;
  }
  if (!(Math.max(...best.point.map(Math.abs)) < 1e5) || !Number.isFinite(best.value)) return null;
  const { root, isFlat } = settled(best.point);
  const ratio = ratioOf(root);
  const at = devianceAt(sums, { ratio, method });
  const gradient = slopeOfRoot(root, at.slope);
  return {
    ratio,
    root,
    at,
    boundary: isFlat,
    iterations,
    converged: best.converged || Math.max(...gradient.map(Math.abs)) < 1e-5 * Math.sqrt(sums.n),
    finalGradient: Math.max(...gradient.map(Math.abs)) / 2,
  };
}

/** The root with non-negative diagonal, what counts as nothing set to 0. */
function settled(point: Float64Array): { root: Float64Array; isFlat: boolean } {
  const sign = point[0]! < 0 ? -1 : 1;
  let [a, b, d] = [sign * point[0]!, sign * point[1]!, Math.abs(point[2]!)];
  const whole = Math.max(1, a, Math.abs(b), d);
  if (a < none * whole) {
    // without a first effect the second has one spread, however it is written
    d = Math.hypot(b, d);
    a = 0;
    b = 0;
    if (d < none * whole) d = 0;
    return { root: Float64Array.of(a, b, d), isFlat: true };
  }
  if (d < none * whole) d = 0;
  return { root: Float64Array.of(a, b, d), isFlat: d === 0 };
}
