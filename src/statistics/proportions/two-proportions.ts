import { wilson } from "../continuous/wilson.js";
import { normalCritical } from "../shared/distributions.js";
import type { Reason } from "../shared/figure.js";
import type { LevelOption } from "../shared/options.js";
import { checkColumnNames, levelOption, type OptionsOf, oneOf, readOptions } from "../shared/options.js";
import { checkFourCells, type FourCells, fourCellsNames, sizesOf } from "./four-cells.js";

/** Difference of two independent shares, first less second. */
export interface RiskDifference {
  readonly estimate: number | null;
  /** sqrt(p_1 q_1 / n_1 + p_2 q_2 / n_2). */
  readonly standardError: number | null;
  /** Newcombe's interval. */
  readonly lower: number | null;
  readonly upper: number | null;
  /** estimate -+ z standard errors; too short for small numbers, for comparison only. */
  readonly wald: readonly [number, number] | null;
  /** 1 / estimate; null where the estimate is 0. */
  readonly numberNeeded: number | null;
  readonly level: number;
  readonly reason: Reason | null;
}

/**
 * Difference of two independent proportions, a / (a + b) - c / (c + d), with Newcombe's interval.
 *
 * From the Wilson limits l and u of each: lower = difference - sqrt((p_1 - l_1)^2 + (u_2 - p_2)^2), upper likewise.
 *
 * @returns nulls with `no-rows` where a group is empty
 * @throws ArgumentError naming the cell that is no whole number, or the level
 * @source Newcombe 1998, Stat Med 17:873 (method 10)
 * @example
 * riskDifference({ a: 56, b: 14, c: 48, d: 32 }).lower // => 0.0524314724023649
 */
export function riskDifference(table: FourCells, options: LevelOption = {}): RiskDifference {
  checkColumnNames(fourCellsNames, { table });
  const { level } = readOptions(levelOption, options);
  checkFourCells(table);
  const z = normalCritical(level);
  const [n1, n2] = sizesOf(table);
  const one = wilson(table.a, n1, { level });
  const two = wilson(table.c, n2, { level });
  if (one.estimate === null || two.estimate === null) {
    const none = { estimate: null, standardError: null, lower: null, upper: null, wald: null };
    return { ...none, numberNeeded: null, level, reason: "no-rows" };
  }
  const [p1, p2] = [one.estimate, two.estimate];
  const estimate = p1 - p2;
  const standardError = Math.sqrt((p1 * (table.b / n1)) / n1 + (p2 * (table.d / n2)) / n2);
  const [l1, u1, l2, u2] = [one.lower, one.upper, two.lower, two.upper] as [number, number, number, number];
  return {
    estimate,
    standardError,
    lower: estimate - Math.hypot(p1 - l1, u2 - p2),
    upper: estimate + Math.hypot(u1 - p1, p2 - l2),
    wald: [estimate - z * standardError, estimate + z * standardError],
    numberNeeded: estimate === 0 ? null : 1 / estimate,
    level,
    reason: null,
  };
}

/** A ratio with an interval on the log scale. */
export interface TableRatio {
  readonly estimate: number | null;
  /** Of the logarithm. */
  readonly logStandardError: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  readonly level: number;
  readonly reason: Reason | null;
  /** Where there is no estimate because a cell is empty: what the ratio itself is. */
  readonly limit: "zero" | "infinity" | null;
}

interface LogRatio {
  readonly estimate: number;
  readonly logVariance: number;
}

/** A ratio of 0 or without bound has no interval on the log scale; 0/0 is no ratio at all. */
function ratioOf(
  logRatio: LogRatio,
  { level, z }: { readonly level: number; readonly z: number },
): TableRatio {
  const { estimate, logVariance } = logRatio;
  if (!Number.isFinite(logVariance) || Number.isNaN(estimate)) {
    const limit = Number.isNaN(estimate) ? null : estimate === 0 ? "zero" : "infinity";
    const none = { estimate: null, logStandardError: null, lower: null, upper: null };
    return { ...none, level, reason: "not-positive", limit };
  }
  const logStandardError = Math.sqrt(logVariance);
  // everybody of both groups: limits on one point would claim certainty
  if (logVariance === 0)
    return {
      estimate,
      logStandardError,
      lower: null,
      upper: null,
      level,
      reason: "no-variance",
      limit: null,
    };
  const factor = Math.exp(z * logStandardError);
  return {
    estimate,
    logStandardError,
    lower: estimate / factor,
    upper: estimate * factor,
    level,
    reason: null,
    limit: null,
  };
}

const emptyGroup = (level: number): TableRatio => ({
  estimate: null,
  logStandardError: null,
  lower: null,
  upper: null,
  level,
  reason: "no-rows",
  limit: null,
});

/**
 * Ratio of two independent proportions, with Wald's interval of its logarithm: variance 1/a - 1/(a + b) + 1/c - 1/(c + d).
 *
 * @returns `no-rows` where a group is empty; `not-positive` where a or c is 0: no interval on the log scale, `limit` says what the
 *   ratio is (null for 0/0); `no-variance` where b and d are 0: the ratio is 1, without an interval
 * @throws ArgumentError naming the cell that is no whole number, or the level
 * @source Katz et al. 1978, Biometrics 34:469
 */
export function riskRatio(table: FourCells, options: LevelOption = {}): TableRatio {
  checkColumnNames(fourCellsNames, { table });
  const { level } = readOptions(levelOption, options);
  checkFourCells(table);
  const z = normalCritical(level);
  const [n1, n2] = sizesOf(table);
  if (n1 === 0 || n2 === 0) return emptyGroup(level);
  const { a, b, c, d } = table;
  // 1/a - 1/(a + b) is b / a / (a + b), without the cancellation
  const logVariance = a > 0 && c > 0 ? b / a / n1 + d / c / n2 : Number.POSITIVE_INFINITY;
  return ratioOf({ estimate: a / n1 / (c / n2), logVariance }, { level, z });
}

export const oddsRatioOptions = {
  ...levelOption,
  /** Default "as-they-are"; "add-half" adds 1/2 to every cell, whether or not one is empty. */
  cells: oneOf(["as-they-are", "add-half"], "as-they-are"),
};

export interface OddsRatioOptions extends OptionsOf<typeof oddsRatioOptions> {}

/**
 * Odds ratio (a / b) / (c / d) of two independent groups, with Wald's interval of its logarithm: variance 1/a + 1/b + 1/c + 1/d.
 *
 * @returns `no-rows` where a group is empty; `not-positive` where a cell is 0, with `limit`
 * @throws ArgumentError naming the cell that is no whole number, or the level
 * @source Woolf 1955, Ann Hum Genet 19:251; 1/2 added: Haldane 1956, Ann Hum Genet 20:309
 */
export function oddsRatio(table: FourCells, options: OddsRatioOptions = {}): TableRatio {
  checkColumnNames(fourCellsNames, { table });
  const { level, cells } = readOptions(oddsRatioOptions, options);
  checkFourCells(table);
  const z = normalCritical(level);
  const [n1, n2] = sizesOf(table);
  if (n1 === 0 || n2 === 0) return emptyGroup(level);
  const [a, b, c, d] = [table.a, table.b, table.c, table.d].map((cell) =>
    cells === "add-half" ? cell + 0.5 : cell,
  ) as [number, number, number, number];
  // an empty cell gives 0 or infinity, two against each other no number
  return ratioOf({ estimate: (a * d) / (b * c), logVariance: 1 / a + 1 / b + 1 / c + 1 / d }, { level, z });
}
