import { factorSymmetric, solveFactored } from "../../linear/symmetric.js";

/** The point where a map leaves its argument alone. */
export interface FixedPoint {
  readonly x: Float64Array;
  readonly iterations: number;
  readonly converged: boolean;
}

/** Steps remembered. */
const memory = 6;

const lengthOf = (values: Float64Array): number =>
  values.reduce((most, value) => Math.max(most, Math.abs(value)), 0);

/** The combination of remembered changes of the residual that comes nearest to it. */
function nearest(changes: readonly Float64Array[], residual: Float64Array): Float64Array {
  const size = changes.length;
  const dot = (a: Float64Array, b: Float64Array): number => {
    let sum = 0;
    for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
    return sum;
  };
  const products = Float64Array.from({ length: size * size }, (_, i) =>
    dot(changes[Math.floor(i / size)]!, changes[i % size]!),
  );
  const factor = factorSymmetric(products, { size, tolerance: 1e-12 });
  return solveFactored(
    factor,
    changes.map((change) => dot(change, residual)),
  );
}

/**
 * Repeats a map until it moves nothing any more, looking ahead by the last few steps; where that leads astray it goes back to plain steps.
 *
 * @param map a new array from an argument that it leaves alone
 * @source Anderson 1965, J ACM 12:547; Walker & Ni 2011, SIAM J Numer Anal 49:1715
 */
export function fixedPoint(
  map: (x: Float64Array) => Float64Array,
  settings: { readonly from: Float64Array; readonly tolerance: number; readonly most: number },
): FixedPoint {
  let x = settings.from.slice();
  let lastX: Float64Array | null = null;
  let lastResidual: Float64Array | null = null;
  let moves: Float64Array[] = [];
  let changes: Float64Array[] = [];
  for (let iterations = 1; iterations <= settings.most; iterations++) {
    const image = map(x);
    const residual = image.map((value, i) => value - x[i]!);
    if (!(lengthOf(residual) >= settings.tolerance))
      return { x: image, iterations, converged: lengthOf(residual) < settings.tolerance };
    if (lastX && lastResidual) {
      const [fromX, fromResidual] = [lastX, lastResidual];
      if (lengthOf(residual) > 2 * lengthOf(fromResidual)) {
        moves = [];
        changes = [];
      } else {
        moves = [...moves, x.map((value, i) => value - fromX[i]!)].slice(-memory);
        changes = [...changes, residual.map((value, i) => value - fromResidual[i]!)].slice(-memory);
      }
    }
    lastX = x;
    lastResidual = residual;
    const next = image.slice();
    if (changes.length > 0)
      nearest(changes, residual).forEach((part, k) => {
        for (let i = 0; i < next.length; i++) next[i]! -= part * (moves[k]![i]! + changes[k]![i]!);
      });
    x = next;
  }
  return { x, iterations: settings.most, converged: false };
}
