import { levelOption, number, type OptionsOf, oneOf, readOptions } from "../../shared/options.js";
import type { Curve } from "../../survival/curve.js";
import { intervalScales } from "../../survival/curve-intervals.js";
import { curveOfCause } from "../../survival/incidence-curve.js";
import { deltaVariance } from "../../survival/incidence-variance.js";
import { greenwoodCurve } from "../../survival/product-limit.js";
import { countsForCurve } from "./counts.js";
import { checkRiskSetTable, type RiskSetTable } from "./risk-set-table.js";

export const tableCurveOptions = {
  ...levelOption,
  /** Scale of the pointwise interval. Default "log-log". */
  interval: oneOf(intervalScales, "log-log"),
  /** Which event: 1, 2, ... Default 1. */
  cause: number("positive count", 1),
  /** Code of the group. Default: all rows together. */
  group: number("code"),
};

export interface TableCurveOptions extends OptionsOf<typeof tableCurveOptions> {}

/**
 * The cumulative incidence of one cause from a table of risk sets, as `incidenceCurve` gives it from the rows on the same times: the other
 * causes count as without the event for ever. Variance by the delta method, each row on its own: where people have several rows, the interval
 * is too narrow or too wide, and the table cannot tell which.
 *
 * Strata are not told apart.
 *
 * @returns an empty curve for a table, or a group, without rows
 * @throws ArgumentError naming the column and line of a table at fault, or the option
 * @source Aalen & Johansen 1978, Scand J Stat 5:141
 */
export function incidenceOfTable(table: RiskSetTable, options: TableCurveOptions = {}): Curve {
  const { cause, group = null, ...asked } = readOptions(tableCurveOptions, options);
  checkRiskSetTable(table);
  const { counts, own } = countsForCurve(table, { cause, group });
  return curveOfCause(
    { counts, own, units: counts.n, varianceOf: deltaVariance },
    { ...asked, variance: "greenwood" },
  );
}

/**
 * The product-limit curve of one cause from a table of risk sets, the other causes being ends of follow-up; as `productLimit` gives it from the
 * rows on the same times. Greenwood's variance, each row on its own.
 *
 * @returns an empty curve for a table, or a group, without rows
 * @throws ArgumentError as incidenceOfTable
 * @source Kaplan & Meier 1958, J Am Stat Assoc 53:457; Greenwood 1926, Rep Public Health Med Subj 33:1
 */
export function productLimitOfTable(table: RiskSetTable, options: TableCurveOptions = {}): Curve {
  const { cause, group = null, ...asked } = readOptions(tableCurveOptions, options);
  checkRiskSetTable(table);
  const { counts, own } = countsForCurve(table, { cause, group });
  const censored = own.map((events, i) => counts.censored[i]! + counts.events[i]! - events);
  return greenwoodCurve({ ...counts, events: own, censored }, asked);
}
