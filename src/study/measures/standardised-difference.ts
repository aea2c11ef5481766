import type { Difference } from "../../statistics/index.js";
import { missing, smallSample } from "../estimates.js";
import { countsOf } from "../pairs.js";
import type { Specification } from "../specification.js";
import type { StandardisedPair } from "../standardised-pair.js";
import type { Adjusted } from "./measure.js";

/**
 * A difference of two standardised curves: the mean over strata of the differences within them, at the mix of the strata in
 * both groups together. Interval by Student's t, a curve counted for each group in each stratum.
 */
export function standardisedDifference(
  {
    standardised,
    found,
  }: { readonly standardised: StandardisedPair; readonly found: Difference | undefined },
  { level, comparison }: Pick<Specification, "level" | "comparison">,
): Omit<Adjusted<"product_limit_standardised">, "main"> {
  const { curves, units, strata, leftOut, records } = standardised;
  const common = {
    method: "product_limit_standardised",
    adjusted_for: comparison.strata,
    strata_used: strata,
    left_out: leftOut,
    ...countsOf(records),
  } as const;
  if (found === undefined) {
    return { ...common, estimate: missing(curves.reason ?? "no-overlap"), standard_error: null, p: null };
  }
  const { estimate, p } = smallSample(found, { units, curves: 2 * curves.used.length, level });
  return { ...common, estimate, standard_error: found.standardError, p };
}
