import { clusteredHazardRatios } from "../../statistics/hazards/index.js";
import { hazardsRegression } from "../../statistics/index.js";
import { estimateOf, missing } from "../estimates.js";
import { adjustedHazardRows, hazardColumns } from "../hazard-rows.js";
import { strataHeld, type UsableRows } from "../pair-rows.js";
import type { Pair } from "../pairs.js";
import type { Comparison } from "../specification.js";
import { type Estimated, measure, ratio } from "./measure.js";

/**
 * Ratio of the rates of return, compared over reference, by proportional-hazards regression: of the groups as they are, and
 * with strata and covariates held equal, among the injuries that have every covariate and lie in strata with enough of both.
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
    if (pair.spans !== null) return withoutDays(pair, comparison);
    const asTheyAre = { rows: { ...pair, strata: null }, leftOut: [] };
    return {
      crude: [ratioOf(asTheyAre, { numbers: [], level })],
      adjusted:
        adjustFor.length === 0
          ? []
          : [
              {
                ...ratioOf(adjustedHazardRows(pair, comparison), { numbers, level }),
                adjusted_for: [...strata, ...numbers],
              },
            ],
    };
  },
});

/** The regression needs each return on a day: placed on one, unlike visits of the groups would make a ratio of their own. */
function withoutDays({ spans }: Pair, { strata, numbers }: Pick<Comparison, "strata" | "numbers">) {
  const common = {
    method: "proportional_hazards",
    main: true,
    estimate: missing("between-visits"),
    standard_error: null,
    p: null,
  } as const;
  const adjusted = spans?.adjusted ?? null;
  return {
    crude: [common],
    adjusted: adjusted === null ? [] : [{ ...common, adjusted_for: [...strata, ...numbers] }],
  };
}

function ratioOf(
  { rows, leftOut }: UsableRows,
  { numbers, level }: Pick<Comparison, "numbers"> & { readonly level: number },
): Estimated<"proportional_hazards"> {
  const { records, isCompared } = rows;
  const sideOf = (side: 0 | 1) => records.filter((_, row) => isCompared[row] === side);
  const common = {
    method: "proportional_hazards",
    main: true,
    sides: { compared: sideOf(1), reference: sideOf(0) },
    strata_used: strataHeld(rows),
    left_out: leftOut,
  } as const;
  if (records.length === 0 && leftOut.length > 0)
    return { ...common, estimate: missing("no-overlap"), standard_error: null, p: null };
  const { converged, found, standardError } = fitted(hazardColumns(rows, { numbers }), level);
  const { estimate, lower, upper, p, reason } = found;
  return {
    ...common,
    estimate: estimateOf({
      value: estimate,
      lower,
      upper,
      reason: converged ? reason : (reason ?? "not-converged"),
    }),
    standard_error: standardError,
    p,
  };
}

/** The ratio of the first covariate; where persons have several injuries with the interval that holds for few of them. */
function fitted(columns: ReturnType<typeof hazardColumns>, level: number) {
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
