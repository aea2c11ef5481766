import { describeFit, statusOf } from "../../hazards/fit/describe-fit.js";
import { climbOn } from "../../hazards/fit/limit-climb.js";
import { type HazardFit, hazardOptions } from "../../hazards/layout/hazard-fit.js";
import { summedTieMethods } from "../../hazards/layout/ties.js";
import { factorOver, maximise } from "../../linear/newton.js";
import { invertFactored } from "../../linear/symmetric.js";
import { number, type OptionsOf, oneOf, readOptions } from "../../shared/options.js";
import { countedProfiles } from "./counted-profiles.js";
import { tableLikelihood } from "./likelihood.js";
import { checkRiskSetTable, type RiskSetTable } from "./risk-set-table.js";

export const tableHazardOptions = {
  ...hazardOptions,
  /** Default "efron"; the exact likelihood is that of whole rows. */
  ties: oneOf(summedTieMethods, "efron"),
  /** Which event: 1, 2, ...; the others are ends of follow-up. Default 1. */
  cause: number("positive count", 1),
};

export interface TableHazardOptions extends OptionsOf<typeof tableHazardOptions> {}

/**
 * Proportional-hazards regression on the covariates of a table of risk sets, each stratum with a baseline of its own; as `hazardsRegression`
 * gives it from the rows on the same times, by Efron's or Breslow's ties. In bins most times are tied: Efron's answer is the nearer to that of
 * the days.
 *
 * Standard errors from the inverse information, each row on its own. The work goes with the different profiles and times, not with the rows.
 *
 * @returns status and reasons as hazardsRegression
 * @throws ArgumentError naming the column and line of a table at fault, or the option
 * @source Cox 1972, J R Stat Soc B 34:187; ties: Efron 1977, J Am Stat Assoc 72:557; Breslow 1974, Biometrics 30:89
 * @example
 * // the six rows of hazardsRegression's own example
 * hazardsOfTable(riskSetTable({
 *   times: [1, 1, 6, 6, 8, 9], causes: [1, 0, 1, 1, 0, 1],
 *   covariates: { names: ["x"], columns: [[1, 1, 1, 0, 0, 0]] },
 * })).hazardRatios[0].estimate // => 5.348721
 */
export function hazardsOfTable(table: RiskSetTable, options: TableHazardOptions = {}): HazardFit {
  const { ties, level, cause, maximumIterations, tolerance } = readOptions(tableHazardOptions, options);
  checkRiskSetTable(table);
  const counted = countedProfiles(table, cause);
  const evaluate = tableLikelihood(counted, ties);
  const end = maximise(counted.rows, { evaluate, maximumIterations, tolerance });
  const result = climbOn(counted.rows, end, evaluate);
  const { n, events, scale } = counted;
  const layout = { n, events, scale, size: scale.length };
  const status = statusOf(result, { ...layout, eventWeight: events });
  const silent = status === "no-rows" || status === "no-events";
  const finite = silent ? [] : result.estimable.filter((j) => !result.infinite.includes(j));
  const inverse = invertFactored(factorOver(result.information, finite));
  return describeFit(
    { names: table.covariates?.names ?? [], layout, result, finite, status },
    { inverse, robust: null, clusters: null, robustScore: null, ties, level },
  );
}
