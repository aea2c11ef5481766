import { ArgumentError, checkColumn, checkSameLength } from "../../shared/arguments.js";
import { checkCovariates } from "../../shared/covariates.js";
import { checkTimeToEvent } from "../../shared/time-to-event.js";
import { asDoubles } from "./layout.js";
import type { HazardColumns } from "./sorted-rows.js";
import type { SummedTies, Ties } from "./ties.js";

/** One pass over doubles: a sum of differences with themselves is 0 unless a value is not finite. */
function allFinite(column: ArrayLike<number>): boolean {
  // as a double a null would be 0, and a text whatever it says
  if (!ArrayBuffer.isView(column))
    for (let row = 0; row < column.length; row++) if (typeof column[row] !== "number") return false;
  const values = asDoubles(column);
  let nothing = 0;
  for (let row = 0; row < values.length; row++) {
    const value = values[row]!;
    nothing += value - value;
  }
  return nothing === 0;
}

/** @throws ArgumentError naming the column and index at fault */
export function checkHazardColumns(columns: HazardColumns): void {
  checkTimeToEvent(columns);
  const times = { name: "times", values: columns.times };
  if (columns.strata !== undefined) {
    checkSameLength({ name: "strata", values: columns.strata }, times);
    checkColumn({ name: "strata", values: columns.strata }, "code");
  }
  // callers without types may have left out any part of it
  const { names, columns: values } = columns.covariates ?? {};
  const sound =
    names?.length === values?.length &&
    values?.every((column) => column?.length === times.values.length && allFinite(column));
  if (!sound) checkCovariates(columns.covariates, times);
}

/** The discrete likelihood is that of whole rows. @throws ArgumentError where rows carry weights or belong together */
export function checkTies(columns: HazardColumns, ties: Ties): void {
  if (ties !== "exact") return;
  for (const argument of ["weights", "clusters"] as const)
    if (columns[argument] !== undefined)
      throw new ArgumentError({
        argument,
        index: null,
        expected: `left out with ties "exact"; use "efron" or "breslow"`,
        found: `${columns[argument].length} values`,
      });
}

/** What is a sum over risk sets cannot be had of the discrete likelihood. @throws ArgumentError for other ties */
export function checkSummedTies(ties: Ties): asserts ties is SummedTies {
  if (ties !== "efron" && ties !== "breslow")
    throw new ArgumentError({
      argument: "ties",
      index: null,
      expected: '"efron" or "breslow"',
      found: `"${ties}"`,
    });
}
