import { checkColumn, checkSameLength } from "../arguments.js";

/** Named columns, one value a row in each. */
export interface Covariates {
  readonly names: readonly string[];
  readonly columns: readonly ArrayLike<number>[];
}

/** @throws ArgumentError naming the covariate and index at fault */
export function checkCovariates(
  covariates: Covariates,
  rows: { name: string; values: ArrayLike<number> },
): void {
  checkSameLength(
    { name: "covariates.columns", values: { length: covariates.columns.length } },
    { name: "covariates.names", values: { length: covariates.names.length } },
  );
  covariates.columns.forEach((values, index) => {
    const column = { name: `covariate "${covariates.names[index]}"`, values };
    checkSameLength(column, rows);
    checkColumn(column, "finite");
  });
}
