import { differenceOf } from "../../statistics/index.js";
import { missing, smallSample } from "../estimates.js";
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
      return {
        crude: [{ ...crudeFromSpans(spans, meanOf), ...at }],
        adjusted: adjusted === null ? [] : [{ ...adjustedFromSpans(adjusted, meanOf), ...at }],
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
                      smallSample(found, {
                        units: standardised.units,
                        curves: 2 * standardised.curves.used.length,
                        level: specification.level,
                      }),
                  },
                ),
                ...at,
              },
            ],
    };
  },
});

const meanOf = ({ restrictedMean }: ModelledDifference) => restrictedMean;

function crude(
  { compared, reference, columns }: Pair,
  { level }: Pick<Specification, "level">,
): Omit<Estimated<"curves">, "main"> {
  const [a, b] = [compared.restrictedMean, reference.restrictedMean];
  if (a.beyondFollowUp || b.beyondFollowUp) {
    const estimate = missing("beyond-follow-up");
    return { method: "curves", estimate, standard_error: null, p: null };
  }
  const found = differenceOf(a, b, { level });
  const { estimate, p } = smallSample(found, { units: columns.units, curves: 2, level });
  return { method: "curves", estimate, standard_error: found.standardError, p };
}
