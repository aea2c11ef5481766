import { differenceOf } from "../../statistics/index.js";
import { missing, smallSample } from "../estimates.js";
import { meanHangsOnFew, withoutLimits } from "../mean-time.js";
import type { Pair } from "../pairs.js";
import { adjustedFromSpans, crudeFromSpans } from "../spans/differences.js";
import type { ModelledDifference } from "../spans/model.js";
import type { Specification } from "../specification.js";
import { difference, type Estimated, measure } from "./measure.js";
import { standardisedDifference } from "./standardised-difference.js";

/**
 * Mean days to the return, counted up to the horizon, compared less reference: of the curves of the groups as
 * they are, and of the curves standardised over strata. Intervals by Student's t.
 */
export const restrictedMeanDifference = measure({
  key: "restricted_mean_difference",
  ...difference,
  unit: "d",
  outcome: "return",
  above: "worse",
  day: "horizon",
  basis: "curves",
  methods: ["curves", "curves_standardised", "accelerated_model", "accelerated_model_standardised"],
  estimate: (pair, specification) => {
    const { standardised, spans } = pair;
    const at = { main: true, at_day: specification.horizonDay };
    if (spans !== null) {
      const { adjusted } = spans;
      const of = { pair, specification };
      return {
        crude: [{ ...unlessFew(crudeFromSpans(spans, meanOf), of), ...at }],
        adjusted: adjusted === null ? [] : [{ ...unlessFew(adjustedFromSpans(adjusted, meanOf), of), ...at }],
      };
    }
    return {
      crude: [{ ...crude(pair, specification), ...at }],
      adjusted:
        standardised === null
          ? []
          : [
              {
                ...standardisedDifference(
                  { standardised, found: standardised.curves.restrictedMean?.difference },
                  {
                    ...specification,
                    // a curve counts for each group in each stratum
                    interval: (found) =>
                      unlessFew(
                        smallSample(found, {
                          units: standardised.units,
                          curves: 2 * standardised.curves.used.length,
                          level: specification.level,
                        }),
                        { pair, specification },
                      ),
                  },
                ),
                ...at,
              },
            ],
    };
  },
});

const meanOf = ({ restrictedMean }: ModelledDifference) => restrictedMean;

function crude(pair: Pair, specification: Specification): Omit<Estimated<"curves">, "main"> {
  const { compared, reference, columns } = pair;
  const { level } = specification;
  const [a, b] = [compared.restrictedMean(), reference.restrictedMean()];
  if (a.beyondFollowUp || b.beyondFollowUp) {
    const estimate = missing("beyond-follow-up");
    return { method: "curves", estimate, standard_error: null, p: null };
  }
  const found = differenceOf(a, b, { level });
  const { estimate, p } = unlessFew(smallSample(found, { units: columns.units, curves: 2, level }), {
    pair,
    specification,
  });
  return { method: "curves", estimate, standard_error: found.standardError, p };
}

/** A difference of two means hangs on a handful of people where one of them does. */
function unlessFew<Found extends ReturnType<typeof smallSample>>(
  found: Found,
  { pair, specification }: { readonly pair: Pair; readonly specification: Specification },
): Found {
  if (found.estimate.value === null) return found;
  const hangs = [pair.compared, pair.reference].some((group) => meanHangsOnFew(group, specification));
  return hangs ? { ...found, estimate: withoutLimits(found.estimate), p: null } : found;
}
