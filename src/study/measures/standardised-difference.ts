import type { Difference } from "../../statistics/index.js";
import { missing } from "../estimates.js";
import type { Estimate } from "../results-parts.js";
import type { Specification } from "../specification.js";
import type { StandardisedPair } from "../standardised-pair.js";
import type { Adjusted } from "./measure.js";

/**
 * A difference of two standardised curves: the mean over strata of the differences within them, at the mix of the strata in
 * both groups together.
 *
 * @param found the difference; undefined where there is none
 * @param options interval: its limits and p
 */
export function standardisedDifference(
  {
    standardised,
    found,
  }: { readonly standardised: StandardisedPair; readonly found: Difference | undefined },
  {
    comparison,
    interval,
  }: Pick<Specification, "comparison"> & {
    readonly interval: (found: Difference) => { readonly estimate: Estimate; readonly p: number | null };
  },
): Omit<Adjusted<"curves_standardised">, "main"> {
  const { curves, strata, leftOut, records } = standardised;
  const common = {
    method: "curves_standardised",
    adjusted_for: comparison.strata,
    strata_used: strata,
    left_out: leftOut,
    sides: records,
  } as const;
  if (found === undefined) {
    return { ...common, estimate: missing(curves.reason ?? "no-overlap"), standard_error: null, p: null };
  }
  return { ...common, ...interval(found), standard_error: found.standardError };
}
