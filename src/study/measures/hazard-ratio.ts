import { clusteredHazardRatios } from "../../statistics/hazards/index.js";
import { hazardsRegression } from "../../statistics/index.js";
import { estimateOf } from "../estimates.js";
import { type HeldEqual, hazardRowsOf } from "../hazard-rows.js";
import { countsOf, type Pair } from "../pairs.js";
import { type Estimated, measure, ratio } from "./measure.js";

/**
 * Ratio of the rates of return, compared over reference, by proportional-hazards regression: of the groups as they are, and
 * with strata and covariates held equal, in the rows that have every covariate.
 */
export const hazardRatio = measure({
  key: "hazard_ratio",
  ...ratio,
  unit: "ratio",
  outcome: "return",
  above: "better",
  day: null,
  basis: "hazards",
  methods: ["proportional_hazards"],
  estimate: (pair, { comparison, level }) => {
    const { strata, numbers, adjustFor } = comparison;
    const heldEqual = { strata: pair.strata, numbers };
    return {
      crude: [ratioOf(pair, { heldEqual: { strata: null, numbers: [] }, level })],
      adjusted:
        adjustFor.length === 0
          ? []
          : [{ ...ratioOf(pair, { heldEqual, level }), adjusted_for: [...strata, ...numbers] }],
    };
  },
});

function ratioOf(
  pair: Pair,
  { heldEqual, level }: { readonly heldEqual: HeldEqual; readonly level: number },
): Estimated<"proportional_hazards"> {
  const { records, isCompared, columns, missing } = hazardRowsOf(pair, heldEqual);
  const { converged, found, standardError } = fitted(columns, level);
  const { estimate, lower, upper, p, reason } = found;
  const sideOf = (side: 0 | 1) => records.filter((_, row) => isCompared[row] === side);
  return {
    method: "proportional_hazards",
    main: true,
    estimate: estimateOf({
      value: estimate,
      lower,
      upper,
      reason: converged ? reason : (reason ?? "not-converged"),
    }),
    standard_error: standardError,
    p,
    ...countsOf({ compared: sideOf(1), reference: sideOf(0) }),
    left_out:
      missing > 0 ? [{ stratum: heldEqual.numbers.join(", "), n: missing, reason: "missing-covariate" }] : [],
  };
}

/** The ratio of the first covariate; where persons have several injuries with the interval that holds for few of them. */
function fitted(columns: ReturnType<typeof hazardRowsOf>["columns"], level: number) {
  const { clusters } = columns;
  if (clusters === undefined) {
    const fit = hazardsRegression(columns, { level });
    const standardError = fit.standardErrors[0] ?? null;
    return { converged: fit.converged, found: fit.hazardRatios[0]!, standardError };
  }
  const { fit, hazardRatios } = clusteredHazardRatios({ ...columns, clusters }, { level });
  const found = hazardRatios[0]!;
  return { converged: fit.converged, found, standardError: found.standardError };
}
