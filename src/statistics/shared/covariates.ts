import { checkColumn, checkIsColumn, checkSameLength } from "./arguments.js";
import { checkColumnNames, checkedBy, type NamesOf } from "./options.js";

/** Named columns, one value a row in each. */
export interface Covariates {
  readonly names: readonly string[];
  readonly columns: readonly ArrayLike<number>[];
}

const covariateNames: NamesOf<Covariates> = { names: true, columns: true };

/** Covariates that are asked for as an option. */
export const covariatesOption = checkedBy<Covariates>((value, name) => {
  checkColumnNames(covariateNames, { [name]: value as Covariates });
});

/** Why there is no test of all covariates together where no coefficient is estimated. */
export const nothingTested = (names: readonly string[]): "no-covariates" | "collinear" =>
  names.length === 0 ? "no-covariates" : "collinear";

/** @throws ArgumentError naming the covariate and index at fault */
export function checkCovariates(
  covariates: Covariates,
  rows: { name: string; values: ArrayLike<number> },
): void {
  checkIsColumn({ name: "covariates.names", values: covariates?.names });
  checkIsColumn({ name: "covariates.columns", values: covariates?.columns });
  checkColumnNames(covariateNames, { covariates });
  checkSameLength(
    { name: "covariates.columns", values: { length: covariates.columns.length } },
    { name: "covariates.names", values: { length: covariates.names.length } },
  );
  covariates.columns.forEach((values, i) => {
    const column = { name: `covariate "${covariates.names[i]}"`, values };
    checkSameLength(column, rows);
    checkColumn(column, "finite");
  });
}

/** Columns less their mean, over their standard deviation, one row after the other; a constant column becomes 0. */
export interface Standardised {
  /** Flat by rows. */
  readonly x: Float64Array;
  readonly size: number;
  readonly centre: Float64Array;
  readonly scale: Float64Array;
}

/** A spread below this part of the values is rounding: the column is constant. */
const constantBelow = 1e-12;

/** Centring and scaling change no estimate; they keep the sums of squares from losing digits. */
export function standardise(columns: readonly ArrayLike<number>[], n: number): Standardised {
  const size = columns.length;
  const x = new Float64Array(n * size);
  const centre = new Float64Array(size);
  const scale = new Float64Array(size).fill(1);
  columns.forEach((column, j) => {
    let sum = 0;
    for (let row = 0; row < n; row++) sum += column[row]!;
    const mean = n > 0 ? sum / n : 0;
    let squares = 0;
    for (let row = 0; row < n; row++) squares += (column[row]! - mean) ** 2;
    const deviation = n > 0 ? Math.sqrt(squares / n) : 0;
    centre[j] = mean;
    if (deviation <= constantBelow * Math.abs(mean)) return;
    scale[j] = deviation;
    for (let row = 0; row < n; row++) x[row * size + j] = (column[row]! - mean) / deviation;
  });
  return { x, size, centre, scale };
}
