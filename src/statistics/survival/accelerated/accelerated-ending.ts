import type { AcceleratedLayout } from "./accelerated-columns.js";

/** How the iterations ended. */
export type Ending =
  | { readonly kind: "maximum" }
  | { readonly kind: "not-converged" }
  /** The likelihood rises for ever as 1 / scale goes to infinity or to 0. */
  | { readonly kind: "scale-to-zero" | "scale-to-infinity" }
  /** ... as the coefficients of these columns of x go to infinity, the sign telling where. */
  | { readonly kind: "monotone"; readonly columns: readonly number[] };

/** A parameter that would still move a standardised log time by this much there has no finite maximum. */
const stillMoving = 0.01;
/**
 * Information a row along a step below which the likelihood is flat there: in the tails of the normal law steps get ever shorter but never end.
 * What moves by less than this part of what moves most then takes no part.
 */
const flatBelow = 1e-10;
const notInStep = 1e-3;

/** Largest spread of each column of x, 1 for the intercept and for 1 / scale. */
export function reachOfColumns({ n, size, x }: AcceleratedLayout): Float64Array {
  const low = new Float64Array(size + 1).fill(Number.POSITIVE_INFINITY);
  const high = new Float64Array(size + 1).fill(Number.NEGATIVE_INFINITY);
  for (let row = 0; row < n; row++)
    for (let j = 1; j < size; j++) {
      low[j] = Math.min(low[j]!, x[row * size + j]!);
      high[j] = Math.max(high[j]!, x[row * size + j]!);
    }
  return high.map((value, j) => (j === 0 || j === size ? 1 : value - low[j]!));
}

/** Whether times are known not to lie below, and others not above, some time: no law of a given spread can then go off to one side. */
export const heldOnBothSides = ({ totals }: AcceleratedLayout): boolean => {
  const [exact, right, left, between] = totals as [number, number, number, number];
  return exact + between > 0 || (right > 0 && left > 0);
};

/** Where the steps have ended: at a maximum, unless no information is left of some parameters because all rows are far in the tails. */
export function endingAtRest(
  kept: readonly number[],
  of: { readonly free: readonly number[]; readonly size: number; readonly held: boolean },
): Ending {
  const { free, size, held } = of;
  const unknown = free.filter((j) => !kept.includes(j));
  if (unknown.length === 0) return { kind: "maximum" };
  const columns = unknown.filter((j) => j < size);
  return columns.length === 0 || (held && free.includes(size) && columns.includes(0))
    ? { kind: "scale-to-zero" }
    : { kind: "monotone", columns };
}

/**
 * Where the likelihood has stopped rising although the parameters have not come to rest; null: they have.
 *
 * @param of rises: the step times the first derivative, which is the step's squared length times the information along it; held: the
 *   intercept cannot run off without the scale
 */
export function endingOf(
  step: Float64Array,
  of: {
    readonly free: readonly number[];
    readonly reach: Float64Array;
    readonly w: number;
    readonly rises: number;
    readonly weight: number;
    readonly held: boolean;
  },
): Ending | null {
  const { free, reach, w, rises, weight, held } = of;
  const size = reach.length - 1;
  const steeper = step[size]! / w;
  const moveOf = (j: number) => (j === size ? Math.abs(steeper) : Math.abs(step[j]!) * reach[j]!);
  const most = free.reduce((longest, j) => Math.max(longest, moveOf(j)), 0);
  const flat = rises < flatBelow * weight * most * most;
  const moving = flat ? Math.min(stillMoving, notInStep * most) : stillMoving;
  const columns = free.filter((j) => j < size && moveOf(j) > moving);
  const covariates = columns.filter((j) => j > 0);
  if (covariates.length > 0) return { kind: "monotone", columns: covariates };
  if (Math.abs(steeper) > moving) return { kind: steeper > 0 ? "scale-to-zero" : "scale-to-infinity" };
  if (columns.length === 0) return null;
  // all rows are in the tails already, the intercept being what is told of it first
  return held && free.includes(size) ? { kind: "scale-to-zero" } : { kind: "monotone", columns };
}
