import { checkColumn, checkSameLength } from "../shared/arguments.js";
import { tCritical, tTwoSided } from "../shared/distributions.js";
import type { Reason } from "../shared/figure.js";
import {
  checkColumnNames,
  type LevelOption,
  levelOption,
  type NamesOf,
  readOptions,
} from "../shared/options.js";
import { momentsOf } from "./describe.js";
import { spreadIsRounding } from "./spread-is-rounding.js";

/** A mean difference with interval and test by Student's t. */
export interface MeanDifference {
  readonly difference: number | null;
  readonly standardError: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  readonly t: number | null;
  readonly df: number | null;
  readonly p: number | null;
  readonly level: number;
  /** Rows on each side; for pairs the pairs, twice. */
  readonly n: readonly [number, number];
  readonly reason: Reason | null;
}

type Found = { readonly difference: number; readonly standardError: number; readonly df: number };

/** Interval and test by Student's t of a difference with its error. */
export function byStudent(compared: Found, common: Pick<MeanDifference, "level" | "n">): MeanDifference {
  const { difference, standardError, df } = compared;
  if (!(standardError > 0))
    return {
      ...common,
      difference,
      standardError,
      lower: null,
      upper: null,
      t: null,
      df: null,
      p: null,
      reason: "no-variance",
    };
  const half = tCritical(common.level, df) * standardError;
  const t = difference / standardError;
  return {
    ...common,
    difference,
    standardError,
    lower: difference - half,
    upper: difference + half,
    t,
    df,
    p: tTwoSided(t, df),
    reason: null,
  };
}

/** What is left where a side has no values, or none to take a spread from. */
export function withoutSpread(
  difference: number | null,
  common: Pick<MeanDifference, "level" | "n">,
): MeanDifference {
  const reason: Reason = difference === null ? "no-rows" : "too-few-rows";
  return {
    ...common,
    difference,
    standardError: null,
    lower: null,
    upper: null,
    t: null,
    df: null,
    p: null,
    reason,
  };
}

/**
 * Difference of two independent means, a - b, without assuming equal variances.
 *
 * SE^2 = s_a^2 / n_a + s_b^2 / n_b; degrees of freedom SE^4 / sum((s^2 / n)^2 / (n - 1)).
 *
 * @returns nulls with `no-rows` where a side is empty; the difference alone with `too-few-rows` (one value on a side) or `no-variance`
 * @throws ArgumentError naming the side and index of a value that is not finite
 * @source Welch 1947, Biometrika 34:28
 */
export function welch(a: ArrayLike<number>, b: ArrayLike<number>, options: LevelOption = {}): MeanDifference {
  const { level } = readOptions(levelOption, options);
  checkColumn({ name: "a", values: a }, "finite");
  checkColumn({ name: "b", values: b }, "finite");
  const common = { level, n: [a.length, b.length] as const };
  if (a.length === 0 || b.length === 0) return withoutSpread(null, common);
  const one = momentsOf(a);
  const two = momentsOf(b);
  const difference = one.mean - two.mean;
  if (one.variance === null || two.variance === null) return withoutSpread(difference, common);
  const first = one.variance / one.n;
  const second = two.variance / two.n;
  const square = first + second;
  const df = square ** 2 / (first ** 2 / (one.n - 1) + second ** 2 / (two.n - 1));
  return byStudent({ difference, standardError: Math.sqrt(square), df }, common);
}

const pairedMeanChangeNames: NamesOf<Parameters<typeof pairedMeanChange>[0]> = { before: true, after: true };

/**
 * Mean change within pairs, after - before, with a paired interval and test.
 *
 * @param pairs before and after: equally long, row by row the same subject
 * @returns nulls with `no-rows`; the change alone with `too-few-rows` (one pair) or `no-variance` (all changes equal
 *   but for rounding)
 * @throws ArgumentError naming the column and index of a value at fault
 * @source Student 1908, Biometrika 6:1
 */
export function pairedMeanChange(
  pairs: { readonly before: ArrayLike<number>; readonly after: ArrayLike<number> },
  options: LevelOption = {},
): MeanDifference {
  checkColumnNames(pairedMeanChangeNames, { pairs });
  const { level } = readOptions(levelOption, options);
  const before = { name: "before", values: pairs.before };
  const after = { name: "after", values: pairs.after };
  checkSameLength(after, before);
  checkColumn(before, "finite");
  checkColumn(after, "finite");
  const n = before.values.length;
  const common = { level, n: [n, n] as const };
  if (n === 0) return withoutSpread(null, common);
  const changes = momentsOf(Array.from(after.values, (value, i) => value - before.values[i]!));
  if (changes.variance === null) return withoutSpread(changes.mean, common);
  if (spreadIsRounding(Math.sqrt(changes.variance), { first: before.values, second: after.values }))
    return byStudent({ difference: changes.mean, standardError: 0, df: n - 1 }, common);
  return byStudent(
    { difference: changes.mean, standardError: Math.sqrt(changes.variance / n), df: n - 1 },
    common,
  );
}
