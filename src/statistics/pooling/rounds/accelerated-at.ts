import { ArgumentError } from "../../shared/arguments.js";
import { clusterIndex } from "../../shared/clusters.js";
import { checkColumnNames, list, needed, type OptionsOf, oneOf, readOptions } from "../../shared/options.js";
import {
  type AcceleratedColumns,
  type AcceleratedLayout,
  acceleratedColumnsNames,
  layOutAccelerated,
  rightCensored,
  uninformative,
} from "../../survival/accelerated/accelerated-columns.js";
import { likelihoodAt, scoresByRow } from "../../survival/accelerated/accelerated-likelihood.js";
import { errorLawOf } from "../../survival/accelerated/error-laws.js";
import { squaresOption } from "./hazards-at.js";
import { checkPoint, heldSums, type SiteSums } from "./site-sums.js";

/** The laws whose parameters are all among those of the sums. */
export const roundLaws = ["weibull", "exponential", "log-normal", "log-logistic"] as const;

const acceleratedAtOptions = {
  ...squaresOption,
  /** Intercept and coefficients over the scale, then 1 / scale: b / scale, in the units of the covariates and of log time. */
  point: needed(list<ArrayLike<number>>()),
  /** Default "weibull"; under the exponential law 1 / scale stays 1 and its derivatives are 0. */
  law: oneOf(roundLaws, "weibull"),
};

export interface AcceleratedAtOptions extends OptionsOf<typeof acceleratedAtOptions> {}

/** The parameters of a layout are those of the point times this matrix, flat: its covariates and log times are counted from the site's own means. */
function unitsOf({ size, centre, scale, middle }: AcceleratedLayout): Float64Array {
  const all = size + 1;
  const units = new Float64Array(all * all);
  units[0] = 1;
  units[size] = -middle;
  units[all * all - 1] = 1;
  for (let j = 1; j < size; j++) {
    units[j] = centre[j - 1]!;
    units[j * all + j] = scale[j - 1]!;
  }
  return units;
}

function times(units: Float64Array, point: ArrayLike<number>): Float64Array {
  const all = point.length;
  const moved = new Float64Array(all);
  for (let j = 0; j < all; j++) for (let k = 0; k < all; k++) moved[j]! += units[j * all + k]! * point[k]!;
  return moved;
}

/** u' units, and units' M units. */
function backwards(units: Float64Array, vector: ArrayLike<number>): number[] {
  const all = vector.length;
  return Array.from({ length: all }, (_, k) => {
    let sum = 0;
    for (let j = 0; j < all; j++) sum += vector[j]! * units[j * all + k]!;
    return sum;
  });
}

function around(units: Float64Array, matrix: Float64Array): number[][] {
  const all = Math.sqrt(units.length);
  const half = Array.from({ length: all }, (_, j) =>
    backwards(units, matrix.subarray(j * all, (j + 1) * all)),
  );
  return Array.from({ length: all }, (_, k) =>
    Array.from({ length: all }, (__, l) => {
      let sum = 0;
      for (let j = 0; j < all; j++) sum += units[j * all + k]! * half[j]![l]!;
      return sum;
    }),
  );
}

/**
 * Log-likelihood of a site's rows, each with its time between two others, under an accelerated failure-time model, with score and information:
 * summed over sites they are those of all rows together.
 *
 * By b / scale and 1 / scale the log-likelihood is concave, but for what late entries take off.
 *
 * @param columns as for acceleratedModel; people by `clusters`, each row another person where they are left out
 * @returns sums of 0 for no rows
 * @throws ArgumentError naming the column and index of a value at fault, or the option; `point` where it is so far away that the likelihood is no number
 * @source Burridge 1981, J R Stat Soc B 43:41; squared scores: Lin & Wei 1989, J Am Stat Assoc 84:1074
 */
export function acceleratedAt(columns: AcceleratedColumns, options: AcceleratedAtOptions): SiteSums {
  checkColumnNames(acceleratedColumnsNames, { columns });
  const { point, law: name, squares } = readOptions(acceleratedAtOptions, options);
  const layout = layOutAccelerated(columns);
  const all = layout.size + 1;
  checkPoint(point, all);
  if (!(point[all - 1]! > 0))
    throw new ArgumentError({
      argument: "point",
      index: all - 1,
      expected: "1 / scale, above 0",
      found: point[all - 1],
    });
  const units = unitsOf(layout);
  const at = { parameters: times(units, point), law: errorLawOf(name) };
  const { logLikelihood, score, information } = likelihoodAt(layout, at);
  const persons = clusterIndex({
    times: layout.logLeft,
    ...(columns.clusters && { clusters: columns.clusters }),
  });
  const fixed = name === "exponential" ? all - 1 : -1;
  const meat = () => {
    const sums = Array.from({ length: persons.count }, () => new Float64Array(all));
    const rows = scoresByRow(layout, at);
    for (let row = 0; row < layout.n; row++)
      for (let j = 0; j < all; j++) sums[persons.of[row]!]![j]! += rows[row * all + j]!;
    const products = new Float64Array(all * all);
    for (const own of sums)
      for (let j = 0; j < all; j++) for (let k = 0; k < all; k++) products[j * all + k]! += own[j]! * own[k]!;
    return products;
  };
  const freeOf = (matrix: number[][]): number[][] =>
    matrix.map((row, j) => row.map((value, k) => (j === fixed || k === fixed ? 0 : value)));
  return heldSums({
    n: layout.n,
    events: layout.totals.reduce(
      (sum, rows, kind) => (kind === rightCensored || kind === uninformative ? sum : sum + rows),
      0,
    ),
    persons: persons.count,
    logLikelihood: logLikelihood - layout.jacobian,
    score: backwards(units, score).map((value, j) => (j === fixed ? 0 : value)),
    information: freeOf(around(units, information)),
    squares: squares === "yes" ? freeOf(around(units, meat())) : null,
  });
}
