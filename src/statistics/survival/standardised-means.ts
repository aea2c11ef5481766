import { differenceFrom } from "./contrast.js";
import { areaFunctional } from "./functionals.js";
import { meanTimeInterval } from "./mean-time-interval.js";
import { figureOf, type Standardisable, standardisedSums } from "./standardised-sums.js";
import type { StandardisedCurves, StandardisedValue } from "./standardised-types.js";

/** Restricted means of both groups, with limits between 0 and the horizon, and their difference. */
export function standardisedMeans(
  input: Standardisable,
  { horizon, level }: { readonly horizon: number; readonly level: number },
): NonNullable<StandardisedCurves["restrictedMean"]> {
  const { estimates, variances, between } = standardisedSums(input, ({ prepared }) =>
    figureOf(prepared, areaFunctional(prepared, horizon)),
  );
  const curves = input.strata.filter(({ weight }) => weight > 0).length;
  const withLimits = (group: 0 | 1): StandardisedValue => {
    const mean = { estimate: estimates[group], standardError: Math.sqrt(variances[group]) };
    const interval = meanTimeInterval(mean, { horizon, level, curves, units: unitsOf(group, input) });
    return { ...mean, lower: interval.lower, upper: interval.upper, reason: interval.reason };
  };
  return {
    groups: [withLimits(0), withLimits(1)],
    difference: differenceFrom(
      { difference: estimates[1] - estimates[0], standardError: Math.sqrt(between) },
      { level },
    ),
  };
}

/** Persons (or rows, where none belong together) of a group in the strata that weigh. */
function unitsOf(group: 0 | 1, { clusters, strata }: Standardisable): number {
  const found = new Set<number>();
  for (const { weight, cells } of strata)
    if (weight > 0) for (const row of cells[group].rows) found.add(clusters.of[row]!);
  return found.size;
}
