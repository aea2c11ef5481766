import { rootBetween } from "../shared/root.js";

/** A share and the size of the sample, whole or not, that it is as good as. */
export interface SizedShare {
  readonly share: number;
  /** Above 0. */
  readonly size: number;
}

/** Limits of a share by the inverted score test. */
export function scoreLimits({ share, size }: SizedShare, z: number): readonly [number, number] {
  const middle = share + (z * z) / (2 * size);
  const half = z * Math.sqrt((share * (1 - share)) / size + (z * z) / (4 * size * size));
  const scale = 1 + (z * z) / size;
  return [Math.max(0, (middle - half) / scale), Math.min(1, (middle + half) / scale)];
}

/** Steepest test that is told apart from p = 0. */
const largestZ = 38;

/** The z, signed as the estimate, at which the limit nearer to 0 reaches it. */
export function touchingZero(
  estimate: number,
  limitsAt: (z: number) => readonly [lower: number, upper: number],
): number {
  if (estimate === 0) return 0;
  const sign = Math.sign(estimate);
  const nearer = (z: number) => (sign > 0 ? limitsAt(z)[0] : -limitsAt(z)[1]);
  return sign * (nearer(largestZ) > 0 ? largestZ : rootBetween(nearer, [0, largestZ]));
}
