import { type Reflections, reflections, rotated, solveTriangle } from "../linear/householder.js";

export interface Solved {
  readonly qr: Reflections;
  readonly b: Float64Array;
  readonly residuals: Float64Array;
}

/**
 * Least squares with one step of refinement: the residuals of the first solution are fitted in turn, which recovers digits that an
 * ill-conditioned design loses.
 */
export function leastSquares(columns: readonly ArrayLike<number>[], response: ArrayLike<number>): Solved {
  const n = response.length;
  const qr = reflections(columns, n);
  const b = solveTriangle(qr, rotated(qr, response));
  const residuals = new Float64Array(n);
  const update = (): void => {
    for (let row = 0; row < n; row++) {
      let value = response[row]!;
      qr.kept.forEach((column, k) => {
        value -= b[k]! * columns[column]![row]!;
      });
      residuals[row] = value;
    }
  };
  update();
  solveTriangle(qr, rotated(qr, residuals)).forEach((step, k) => {
    b[k]! += step;
  });
  update();
  return { qr, b, residuals };
}
