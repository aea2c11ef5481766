import { ArgumentError, checkColumn, checkIsColumn, checkSameLength } from "../shared/arguments.js";
import { checkColumnNames, type NamesOf, number, type OptionsOf, readOptions } from "../shared/options.js";
import { power } from "../shared/power.js";

export interface SymmetricSystem {
  /** Flat by rows, as many rows as columns. */
  readonly matrix: ArrayLike<number>;
  readonly right: ArrayLike<number>;
}

export const symmetricSystemNames: NamesOf<SymmetricSystem> = { matrix: true, right: true };

export const solveOptions = {
  /** A pivot no larger than this part of the largest entry, unknowns scaled to one size, counts as none. Default 1e-12. */
  tolerance: number("positive", 1e-12),
};

export interface SolveOptions extends OptionsOf<typeof solveOptions> {}

export interface SymmetricSolution {
  /** One a column; 0 where the column is left out. */
  readonly solution: readonly number[];
  readonly rank: number;
  /** Columns without a pivot of their own, ascending: combinations of the others. */
  readonly leftOut: readonly number[];
  /** Whether the solution satisfies every row, those left out too. */
  readonly consistent: boolean;
}

function checkSystem({ matrix, right }: SymmetricSystem): number {
  checkIsColumn({ name: "right", values: right });
  const size = right.length;
  checkSameLength(
    { name: "matrix", values: matrix },
    { name: "right times right", values: { length: size * size } },
  );
  checkColumn({ name: "matrix", values: matrix }, "finite");
  checkColumn({ name: "right", values: right }, "finite");
  for (let i = 0; i < size; i++)
    for (let j = 0; j < i; j++) {
      const [one, other] = [matrix[i * size + j]!, matrix[j * size + i]!];
      if (Math.abs(one - other) > 1e-12 * (Math.abs(one) + Math.abs(other)))
        throw new ArgumentError({
          argument: "matrix",
          index: i * size + j,
          expected: `equal to its mirror image, ${other}`,
          found: one,
        });
    }
  return size;
}

/** Powers of two that bring the largest entry of each row near 1: exact, and the same for rows and columns. */
function scalesOf(matrix: ArrayLike<number>, size: number): Float64Array {
  return Float64Array.from({ length: size }, (_, i) => {
    let most = 0;
    for (let j = 0; j < size; j++) most = Math.max(most, Math.abs(matrix[i * size + j]!));
    const diagonal = Math.abs(matrix[i * size + i]!);
    const own = diagonal > 0 ? diagonal : most;
    return own > 0 ? power(2, -Math.round(Math.log2(own) / 2)) : 1;
  });
}

/** Rows and columns in the order of their pivots; the work matrix is eliminated in place. */
interface Elimination {
  readonly size: number;
  readonly a: Float64Array;
  readonly b: Float64Array;
  readonly rows: number[];
  readonly columns: number[];
}

/** Brings the largest remaining entry to the pivot's place. Returns its size. */
function pivot({ size, a, rows, columns }: Elimination, step: number): number {
  let most = 0;
  let [at, across] = [step, step];
  for (let i = step; i < size; i++)
    for (let j = step; j < size; j++) {
      const entry = Math.abs(a[rows[i]! * size + columns[j]!]!);
      if (entry > most) [most, at, across] = [entry, i, j];
    }
  [rows[step], rows[at]] = [rows[at]!, rows[step]!];
  [columns[step], columns[across]] = [columns[across]!, columns[step]!];
  return most;
}

/**
 * Solves a symmetric system, definite or not, by elimination with complete pivoting on a scaled matrix, and reports its rank.
 *
 * Without full rank it gives the solution in which the columns left out are 0, and says whether that solves all rows.
 *
 * @throws ArgumentError for sizes that do not match, a value that is not finite, or a matrix that is not symmetric, with its index
 * @source Wilkinson 1961, J ACM 8:281; Golub & Van Loan 2013, Matrix Computations, section 3.4
 * @example
 * solveSymmetric({ matrix: [0, 1, 1, 0], right: [3, 5] }).solution // => [5, 3]
 */
export function solveSymmetric(system: SymmetricSystem, options: SolveOptions = {}): SymmetricSolution {
  checkColumnNames(symmetricSystemNames, { system });
  const { tolerance } = readOptions(solveOptions, options);
  const size = checkSystem(system);
  const scales = scalesOf(system.matrix, size);
  const state: Elimination = {
    size,
    a: Float64Array.from(system.matrix, (x, k) => x * scales[Math.floor(k / size)]! * scales[k % size]!),
    b: Float64Array.from(system.right, (x, i) => x * scales[i]!),
    rows: Array.from({ length: size }, (_, k) => k),
    columns: Array.from({ length: size }, (_, k) => k),
  };
  const { a, b, rows, columns } = state;
  const largestRight = b.reduce((most, x) => Math.max(most, Math.abs(x)), 0);
  let largest = 0;
  let rank = 0;
  for (; rank < size; rank++) {
    const found = pivot(state, rank);
    if (rank === 0) largest = found;
    if (!(found > tolerance * largest)) break;
    const row = rows[rank]! * size;
    const own = a[row + columns[rank]!]!;
    for (let i = rank + 1; i < size; i++) {
      const other = rows[i]! * size;
      const factor = a[other + columns[rank]!]! / own;
      if (factor === 0) continue;
      for (let j = rank; j < size; j++) a[other + columns[j]!]! -= factor * a[row + columns[j]!]!;
      b[rows[i]!]! -= factor * b[rows[rank]!]!;
    }
  }
  const scaled = new Float64Array(size);
  for (let k = rank - 1; k >= 0; k--) {
    let value = b[rows[k]!]!;
    for (let j = k + 1; j < rank; j++) value -= a[rows[k]! * size + columns[j]!]! * scaled[columns[j]!]!;
    scaled[columns[k]!] = value / a[rows[k]! * size + columns[k]!]!;
  }
  const left = rows.slice(rank).reduce((most, row) => Math.max(most, Math.abs(b[row]!)), 0);
  return {
    solution: Array.from(scaled, (x, i) => x * scales[i]!),
    rank,
    leftOut: columns.slice(rank).sort((i, j) => i - j),
    consistent: left <= 1e-9 * largestRight,
  };
}
