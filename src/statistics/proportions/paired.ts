import { wilson } from "../continuous/wilson.js";
import { checkNumber } from "../shared/arguments.js";
import { binomialDensity, binomialLowerTail } from "../shared/binomial.js";
import { chiSquareUpperTail, normalCritical } from "../shared/distributions.js";
import type { Reason } from "../shared/figure.js";
import type { LevelOption } from "../shared/options.js";
import { checkColumnNames, levelOption, type NamesOf, readOptions } from "../shared/options.js";
import { crossOf } from "./four-cells.js";
import { exactLimitsOfShare } from "./one-proportion.js";

/** Pairs by who had the event: both of a pair, only the first, only the second, neither. Whole numbers up to 2^53. */
export interface PairedCells {
  readonly both: number;
  readonly firstOnly: number;
  readonly secondOnly: number;
  readonly neither: number;
}

export const pairedCellsNames: NamesOf<PairedCells> = {
  both: true,
  firstOnly: true,
  secondOnly: true,
  neither: true,
};

/** @throws ArgumentError naming the count at fault */
function checkPairs({ both, firstOnly, secondOnly, neither }: PairedCells): void {
  for (const [name, value] of Object.entries({ both, firstOnly, secondOnly, neither }))
    checkNumber({ name, value }, "count");
}

/** Tests of two paired proportions. */
export interface PairedTest {
  /** Binomial test of the pairs that differ, twice the smaller tail. */
  readonly exact: number;
  /** The same, the observed count taken half. */
  readonly midP: number;
  /** (b - c)^2 / (b + c), null with `no-variance` where no pair differs. */
  readonly chiSquare: number | null;
  readonly p: number | null;
  /** (|b - c| - 1)^2 / (b + c). */
  readonly chiSquareContinuity: number | null;
  readonly pContinuity: number | null;
  readonly reason: Reason | null;
}

/**
 * Test of two paired proportions, from the pairs that differ.
 *
 * @returns exact and mid-p of 1 and `no-variance` where no pair differs (`no-rows` without pairs)
 * @throws ArgumentError naming the count that is no whole number
 * @source McNemar 1947, Psychometrika 12:153; mid-p: Fagerland, Lydersen & Laake 2013, BMC Med Res Methodol 13:91
 * @example
 * pairedTest({ both: 5, firstOnly: 6, secondOnly: 1, neither: 8 }).exact // => 0.125
 */
export function pairedTest(pairs: PairedCells): PairedTest {
  checkColumnNames(pairedCellsNames, { pairs });
  checkPairs(pairs);
  const { firstOnly: b, secondOnly: c, both, neither } = pairs;
  const differing = b + c;
  if (differing === 0) {
    const none = { chiSquare: null, p: null, chiSquareContinuity: null, pContinuity: null };
    return { exact: 1, midP: 1, ...none, reason: both + neither === 0 ? "no-rows" : "no-variance" };
  }
  const even = { n: differing, p: 0.5 };
  const tail = 2 * binomialLowerTail(Math.min(b, c), even);
  const apart = Math.abs(b - c);
  const chiSquare = apart * (apart / differing);
  const moved = Math.max(0, apart - 1);
  const chiSquareContinuity = moved * (moved / differing);
  return {
    exact: Math.min(1, tail),
    midP: Math.min(1, tail - binomialDensity(b, even)),
    chiSquare,
    p: chiSquareUpperTail(chiSquare, 1),
    chiSquareContinuity,
    pContinuity: chiSquareUpperTail(chiSquareContinuity, 1),
    reason: null,
  };
}

/** Difference of two paired shares, first less second. */
export interface PairedDifference {
  readonly estimate: number | null;
  /** sqrt(b + c - (b - c)^2 / n) / n. */
  readonly standardError: number | null;
  /** Newcombe's interval for pairs. */
  readonly lower: number | null;
  readonly upper: number | null;
  /** estimate -+ z standard errors, for comparison only. */
  readonly wald: readonly [number, number] | null;
  /** Correlation of the two, moved towards 0 by the continuity correction; part of Newcombe's interval. */
  readonly correctedPhi: number | null;
  readonly level: number;
  readonly reason: Reason | null;
}

/** (a d - b c, moved n / 2 towards 0 where positive) over the root of the product of the margins; 0 where a margin is 0. */
function phiOf({ both: a, firstOnly: b, secondOnly: c, neither: d }: PairedCells): number {
  const n = a + b + c + d;
  const cross = crossOf({ a, b, c, d });
  const moved = cross > 0 ? Math.max(0, cross - n / 2) : cross;
  const root = Math.sqrt(a + b) * Math.sqrt(c + d) * Math.sqrt(a + c) * Math.sqrt(b + d);
  return root === 0 ? 0 : moved / root;
}

/**
 * Difference of two paired proportions with Newcombe's interval.
 *
 * From the Wilson limits of each: lower = difference - sqrt(dl_1^2 - 2 phi dl_1 du_2 + du_2^2), upper likewise.
 *
 * @returns nulls with `no-rows` without pairs
 * @throws ArgumentError naming the count that is no whole number, or the level
 * @source Newcombe 1998, Stat Med 17:2635 (method 10)
 */
export function pairedDifference(pairs: PairedCells, options: LevelOption = {}): PairedDifference {
  checkColumnNames(pairedCellsNames, { pairs });
  const { level } = readOptions(levelOption, options);
  checkPairs(pairs);
  const z = normalCritical(level);
  const { both, firstOnly, secondOnly, neither } = pairs;
  const n = both + firstOnly + secondOnly + neither;
  const one = wilson(both + firstOnly, n, { level });
  const two = wilson(both + secondOnly, n, { level });
  if (one.estimate === null || two.estimate === null) {
    const none = { estimate: null, standardError: null, lower: null, upper: null, wald: null };
    return { ...none, correctedPhi: null, level, reason: "no-rows" };
  }
  const apart = firstOnly - secondOnly;
  const estimate = apart / n;
  const standardError = Math.sqrt(firstOnly + secondOnly - apart * (apart / n)) / n;
  const phi = phiOf(pairs);
  const [below1, above1] = [one.estimate - one.lower!, one.upper! - one.estimate];
  const [below2, above2] = [two.estimate - two.lower!, two.upper! - two.estimate];
  const joined = (own: number, other: number): number =>
    Math.sqrt(Math.max(0, own * own - 2 * phi * own * other + other * other));
  return {
    estimate,
    standardError,
    lower: estimate - joined(below1, above2),
    upper: estimate + joined(above1, below2),
    wald: [estimate - z * standardError, estimate + z * standardError],
    correctedPhi: phi,
    level,
    reason: null,
  };
}

/** Ratio of the pairs that differ one way to those that differ the other way. */
export interface PairedOddsRatio {
  /** Null where it is 0, infinite or 0/0, see `limit`. */
  readonly estimate: number | null;
  readonly lower: number | null;
  /** Null: no upper bound. */
  readonly upper: number | null;
  readonly level: number;
  readonly reason: Reason | null;
  readonly limit: "zero" | "infinity" | null;
}

/**
 * Conditional odds ratio of paired proportions, firstOnly / secondOnly, with its exact interval: the limits of the share of the first
 * kind among the pairs that differ, as odds.
 *
 * @returns `not-positive` where one kind is missing, with `limit`; `no-variance` where no pair differs
 * @throws ArgumentError naming the count that is no whole number, or the level
 * @source Clopper & Pearson 1934, Biometrika 26:404; Breslow & Day 1980, Statistical Methods in Cancer Research 1, chapter 5
 */
export function pairedOddsRatio(pairs: PairedCells, options: LevelOption = {}): PairedOddsRatio {
  checkColumnNames(pairedCellsNames, { pairs });
  const { level } = readOptions(levelOption, options);
  checkPairs(pairs);
  const { firstOnly: b, secondOnly: c } = pairs;
  if (b + c === 0)
    return { estimate: null, lower: 0, upper: null, level, reason: "no-variance", limit: null };
  const lowerOf = (successes: number): number => {
    const [share] = exactLimitsOfShare({ successes, n: b + c }, level);
    return share / (1 - share);
  };
  return {
    estimate: b > 0 && c > 0 ? b / c : null,
    lower: lowerOf(b),
    upper: c === 0 ? null : 1 / lowerOf(c),
    level,
    reason: b > 0 && c > 0 ? null : "not-positive",
    limit: b === 0 ? "zero" : c === 0 ? "infinity" : null,
  };
}
