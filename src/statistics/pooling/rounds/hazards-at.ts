import { meat, sortedClusters } from "../../hazards/fit/sandwich.js";
import { checkHazardColumns } from "../../hazards/layout/check-columns.js";
import { layOut } from "../../hazards/layout/layout.js";
import { type HazardColumns, hazardColumnsNames } from "../../hazards/layout/sorted-rows.js";
import { summedTieMethods } from "../../hazards/layout/ties.js";
import { informationOf } from "../../hazards/likelihood/information.js";
import { moveTo } from "../../hazards/likelihood/move-state.js";
import { emptyState } from "../../hazards/likelihood/risk-state.js";
import { clusterIndex } from "../../shared/clusters.js";
import { checkColumnNames, list, needed, type OptionsOf, oneOf, readOptions } from "../../shared/options.js";
import { checkPoint, heldSums, rowsInUnits, type SiteSums } from "./site-sums.js";

export const squaresOption = {
  /** Whether the squared scores of the people are summed too, as for a clustered variance. Default "no". */
  squares: oneOf(["yes", "no"], "no"),
};

export const hazardsAtTies = {
  /** Default "efron". */
  ties: oneOf(summedTieMethods, "efron"),
};

const hazardsAtOptions = {
  ...squaresOption,
  ...hazardsAtTies,
  /** A coefficient for each covariate, in the covariate's own unit. */
  point: needed(list<ArrayLike<number>>()),
};

export interface HazardsAtOptions extends OptionsOf<typeof hazardsAtOptions> {}

/**
 * Partial log-likelihood of a site's rows at some coefficients, with score and information: summed over sites they are those of all rows
 * together with the sites as strata, since no risk set crosses a site.
 *
 * @param columns as for hazardsRegression; people by `clusters`, each row another person where they are left out
 * @returns sums of 0 for no rows, or none with the event
 * @throws ArgumentError naming the column and index of a value at fault, or the option; `point` where it is so far away that the likelihood is no number
 * @source Cox 1972, J R Stat Soc B 34:187; ties: Efron 1977, J Am Stat Assoc 72:557; squared scores: Lin & Wei 1989, J Am Stat Assoc 84:1074
 */
export function hazardsAt(columns: HazardColumns, options: HazardsAtOptions): SiteSums {
  checkColumnNames(hazardColumnsNames, { columns });
  const { point, ties, squares } = readOptions(hazardsAtOptions, options);
  checkHazardColumns(columns);
  const layout = layOut(columns);
  const { scale, size, n } = layout;
  checkPoint(point, size);
  const state = emptyState(layout, { ties });
  const score = new Float64Array(size);
  const information = new Float64Array(size * size);
  const beta = scale.map((unit, j) => unit * point[j]!);
  const logLikelihood = layout.eventWeight > 0 ? moveTo(state, beta, score) : 0;
  if (layout.eventWeight > 0) informationOf(state, information, { work: new Float64Array(n), factor: null });
  const empty = new Float64Array(size * size);
  const summed = () =>
    layout.eventWeight > 0 ? meat(state, sortedClusters(columns, layout.row)).matrix : empty;
  return heldSums({
    n,
    events: layout.events,
    persons: clusterIndex(columns).count,
    logLikelihood,
    score: Array.from(score, (value, j) => value * scale[j]!),
    information: rowsInUnits(information, scale),
    squares: squares === "yes" ? rowsInUnits(summed(), scale) : null,
  });
}
