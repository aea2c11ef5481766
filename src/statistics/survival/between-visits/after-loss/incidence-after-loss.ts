import {
  checkColumnNames,
  list,
  type NamesOf,
  needed,
  number,
  type OptionsOf,
  readOptions,
  withDefault,
} from "../../../shared/options.js";
import { checkFactors } from "../../after-loss/factors.js";
import { visitColumnsNames } from "../columns.js";
import { modelOptions, visitModelsOf } from "../visit-models.js";
import type { IncidenceAfterLoss, VisitsWithLoss } from "./loss-types.js";
import { lossUnder } from "./loss-under.js";

const visitsWithLossNames: NamesOf<VisitsWithLoss> = { ...visitColumnsNames, lost: true, cells: true };

const suppositions = {
  /** Time by which the shares are wanted, above 0. */
  time: needed(number("positive")),
  /** Factors by which the hazard of those lost is multiplied, each 0 or more. Default none. */
  factors: withDefault(list<ArrayLike<number>>(), []),
  /** The share of which it is asked by what factor it is crossed. Default 0.5. */
  line: number("open share", 0.5),
};

const incidenceAfterLossOptions = {
  ...suppositions,
  ...modelOptions,
};

export interface IncidenceAfterLossOptions extends OptionsOf<typeof incidenceAfterLossOptions> {}

/**
 * Shares with one end by a time from ends known only between visits, if those lost to follow-up were unlike those followed: bounds, and between them the
 * hazard of the end multiplied by a factor from the loss on, as shareAfterLoss supposes it where each end has its day.
 *
 * The models of the ends are those of incidenceBetweenVisits and stay as they were fitted, with those lost as last seen: law, parameters and other ends. The
 * share is a walk through four states (followed, lost, with the end, ended otherwise) by their hazards, with the chances of loss of each group (in each cell)
 * on the day of each loss: losses over those still without an end after it, a row whose end came between two days counting with the chance that it came
 * later. At the factor 1 this is the share of incidenceBetweenVisits; at 0 none, at Infinity all of those lost have the end. Follow-up that ended because
 * the data were closed is taken as independent of the end, whatever the factor.
 *
 * Why the models are not fitted again with the lost as they are supposed: README.md.
 *
 * Variance by the delta method from the models' covariance and binomial chances of loss, or by rows summed within clusters; limits and factors of small samples
 * as in incidenceBetweenVisits. The factor is taken as known. With covariates the groups are standardised as there.
 *
 * @returns no groups with the reason of the end whose model has no estimates; `beyond-follow-up` for a time after the last day on which somebody in the group
 *   was still followed
 * @throws ArgumentError naming the column and index at fault, or the option
 * @source Jackson, White, Seaman, Evans, Baisley & Carpenter 2014, Stat Med 33:4681; walk through states: Aalen & Johansen 1978, Scand J Stat 5:141
 * @example
 * incidenceAfterLoss({ left: [0, 42, 42, 84], right: [42, 84, 84, null], lost: [0, 0, 0, 1] }, { time: 90 }).groups[0].lost // => 1
 */
export function incidenceAfterLoss(
  columns: VisitsWithLoss,
  options: IncidenceAfterLossOptions,
): IncidenceAfterLoss {
  checkColumnNames(visitsWithLossNames, { columns });
  const { end, laws, level, time, factors, line } = readOptions(incidenceAfterLossOptions, options);
  checkFactors(factors);
  const { lost, cells, ...rest } = columns;
  const prepared = visitModelsOf(rest, { end, laws, level });
  const { groups } = prepared.visits;
  const { reason, shareOf, differenceOf } = lossUnder(
    { prepared, lost, ...(cells === undefined ? {} : { cells }) },
    { time, factors: Array.from(factors), line },
  );
  const told = { time, end, reason };
  if (reason !== null) return { ...told, groups: [], differences: [] };
  return {
    ...told,
    groups: groups.map(shareOf),
    differences: groups.flatMap((group, i) =>
      groups.slice(0, i).map((against) => differenceOf(group, against)),
    ),
  };
}
