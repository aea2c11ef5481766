import { type Difference, shareAt, shareDifference } from "../../statistics/index.js";
import { estimateOf, missing } from "../estimates.js";
import type { Pair } from "../pairs.js";
import { adjustedFromSpans, crudeFromSpans } from "../spans/differences.js";
import type { ModelledDifference } from "../spans/model.js";
import type { SpansOfPair } from "../spans/pair.js";
import type { Landmark, Specification } from "../specification.js";
import { difference, type Estimated, measure } from "./measure.js";
import { standardisedDifference } from "./standardised-difference.js";

/**
 * Share back by a landmark, compared less reference: of the curves of the groups as they are, and of the curves standardised
 * over strata; both with limits recovered from score limits.
 */
export const landmarkDifference = measure({
  key: "landmark_difference",
  ...difference,
  unit: "share",
  outcome: "return",
  above: "better",
  day: "landmark",
  basis: "curves",
  methods: ["curves", "curves_standardised", "accelerated_model", "accelerated_model_standardised"],
  estimate: (pair, specification) => {
    const { landmarks, level } = specification;
    const { standardised, spans } = pair;
    if (spans !== null) return bySpans(spans, specification);
    return {
      crude: landmarks.map((landmark) => crudeAt(landmark, { pair, level })),
      adjusted:
        standardised === null
          ? []
          : landmarks.map(({ day, isMain }) => {
              const found = standardised.curves.shares?.find(({ time }) => time === day)?.difference;
              return {
                ...standardisedDifference({ standardised, found }, { ...specification, interval: asFound }),
                main: isMain,
                at_day: day,
              };
            }),
    };
  },
});

/** Under the model of spans, crude and with what the study holds equal set alike. */
function bySpans({ adjusted, ...spans }: SpansOfPair, { landmarks }: Pick<Specification, "landmarks">) {
  const at = ({ day, isMain }: Landmark) => ({
    read: ({ shares }: ModelledDifference) => shares.find(({ time }) => time === day)!,
    place: { main: isMain, at_day: day },
  });
  return {
    crude: landmarks
      .map(at)
      .map(({ read, place }) => ({ ...crudeFromSpans({ ...spans, adjusted }, read), ...place })),
    adjusted:
      adjusted === null
        ? []
        : landmarks.map(at).map(({ read, place }) => ({ ...adjustedFromSpans(adjusted, read), ...place })),
  };
}

/** The limits are recovered from score limits of each stratum, and always there. */
const asFound = ({ difference: value, lower, upper, p, reason }: Difference) => ({
  estimate: estimateOf({ value, lower, upper, reason }),
  p,
});

function crudeAt(
  { day, isMain }: Landmark,
  { pair, level }: { readonly pair: Pair; readonly level: number },
): Estimated<"curves"> {
  const common = { method: "curves", main: isMain, at_day: day } as const;
  const sides = [pair.compared, pair.reference].map(({ curve }) => ({
    ...shareAt(curve, day),
    n: curve.n,
    units: curve.units,
  }));
  const silent = sides.find(({ reason }) => reason !== null)?.reason;
  if (silent) return { ...common, estimate: missing(silent), standard_error: null, p: null };
  const [a, b] = sides.map((side) => ({ ...side, returned: side.returned! }));
  const found = shareDifference(a!, b!, { level });
  return {
    ...common,
    estimate: estimateOf({ ...found, value: found.estimate }),
    // where the curve has come to its end nothing is left to vary by Greenwood's formula
    standard_error: Math.hypot(a!.standardError ?? 0, b!.standardError ?? 0),
    p: found.p,
  };
}
