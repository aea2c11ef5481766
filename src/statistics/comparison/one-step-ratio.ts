import { ArgumentError } from "../shared/arguments.js";
import type { LevelOption } from "../shared/options.js";
import { checkColumnNames, levelOption, readOptions } from "../shared/options.js";
import { differenceFrom, type Ratio } from "../survival/contrast.js";
import { checkGroupedTimes, type GroupedTimes, groupedTimesNames } from "./grouped-times.js";
import { reasonForNoTest } from "./log-rank.js";
import { observedAndExpected } from "./observed-and-expected.js";

/**
 * Ratio of the hazard of the first of two groups to that of the second, by one step from 1: exp((O - E) / V), with standard error of the
 * logarithm 1 / sqrt(V); O, E and V are those of the unweighted log-rank test, within strata where given.
 *
 * Good near 1 and the usual summary where only O, E and V are published; far from 1 it lies too close to 1, most with unequal groups, where
 * hazardsRegression is the estimate to use. Clusters are not used here.
 *
 * @param columns groups: two codes
 * @returns nulls with the reason of the log-rank test
 * @throws ArgumentError naming the column and index of a value at fault, more groups than two, or the level
 * @source Peto, Pike, Armitage et al. 1977, Br J Cancer 35:1; Yusuf, Peto, Lewis, Collins & Sleight 1985, Prog Cardiovasc Dis 27:335
 */
export function oneStepHazardRatio(columns: GroupedTimes, options: LevelOption = {}): Ratio {
  checkColumnNames(groupedTimesNames, { columns });
  checkGroupedTimes(columns);
  const { groups, observed, expected, variance } = observedAndExpected(columns, "equal");
  const v = variance[0] ?? 0;
  const { level } = readOptions(levelOption, options);
  if (groups.length > 2)
    throw new ArgumentError({
      argument: "groups",
      index: null,
      expected: "two codes, one for each group",
      found: groups.join(", "),
    });
  if (groups.length < 2 || !(v > 0)) {
    const none = { ratio: null, standardErrorOfLog: null, lower: null, upper: null, z: null, p: null };
    return { ...none, level, reason: reasonForNoTest(columns, groups) };
  }
  const difference = (observed[0]! - expected[0]!) / v;
  const onLog = differenceFrom({ difference, standardError: 1 / Math.sqrt(v) }, { level });
  return {
    ratio: Math.exp(difference),
    standardErrorOfLog: onLog.standardError,
    lower: onLog.lower === null ? null : Math.exp(onLog.lower),
    upper: onLog.upper === null ? null : Math.exp(onLog.upper),
    z: onLog.z,
    p: onLog.p,
    level,
    reason: null,
  };
}
