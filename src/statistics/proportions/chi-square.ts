import { ArgumentError, checkColumn, checkSameLength } from "../shared/arguments.js";
import { chiSquareUpperTail, normalTwoSided } from "../shared/distributions.js";
import type { Reason, TestResult } from "../shared/figure.js";
import { checkColumnNames, list, type NamesOf, type OptionsOf, readOptions } from "../shared/options.js";
import { checkFourCells, crossOf, type FourCells, fourCellsNames, sizesOf } from "./four-cells.js";

const tested = (statistic: number, df: number): TestResult => ({
  statistic,
  df,
  p: chiSquareUpperTail(statistic, df),
  reason: null,
});

const untested = (df: number, reason: Reason): TestResult => ({ statistic: null, df, p: null, reason });

/** Chi-square of four cells, plain and corrected. */
export interface FourCellsChiSquare {
  readonly plain: TestResult;
  /** |a d - b c| less n / 2. */
  readonly continuity: TestResult;
  /** Times (n - 1) / n. */
  readonly lessOne: TestResult;
}

/**
 * Chi-square test of four cells: n (a d - b c)^2 over the product of the margins, taken in quotients so that large counts do not overflow.
 *
 * @returns `no-rows` for an empty table; `no-variance` where a margin is 0
 * @throws ArgumentError naming the cell that is no whole number
 * @source Pearson 1900, Philos Mag 50:157; Yates 1934, J R Stat Soc Suppl 1:217; (n - 1) / n: Campbell 2007, Stat Med 26:3661
 */
export function fourCellsChiSquare(table: FourCells): FourCellsChiSquare {
  checkColumnNames(fourCellsNames, { table });
  checkFourCells(table);
  const { a, b, c, d } = table;
  const [n1, n2, n] = sizesOf(table);
  const [events, others] = [a + c, b + d];
  if (n1 === 0 || n2 === 0 || events === 0 || others === 0) {
    const none = untested(1, n === 0 ? "no-rows" : "no-variance");
    return { plain: none, continuity: none, lessOne: none };
  }
  const cross = Math.abs(crossOf(table));
  const square = (distance: number): number => (distance / n1 / n2) * (distance / events / others) * n;
  return {
    plain: tested(square(cross), 1),
    continuity: tested(square(Math.max(0, cross - n / 2)), 1),
    lessOne: tested((square(cross) * (n - 1)) / n, 1),
  };
}

/** Events and sizes of several independent groups. */
export interface GroupCounts {
  /** Whole numbers, one a group. */
  readonly events: ArrayLike<number>;
  /** Whole numbers, at least the events. */
  readonly n: ArrayLike<number>;
}

export const groupCountsNames: NamesOf<GroupCounts> = { events: true, n: true };

/** @throws ArgumentError naming the column and index at fault */
function checkGroupCounts({ events, n }: GroupCounts): void {
  const sizes = { name: "n", values: n };
  checkSameLength({ name: "events", values: events }, sizes);
  checkColumn(sizes, "count");
  checkColumn({ name: "events", values: events }, "count");
  for (let i = 0; i < n.length; i++)
    if (events[i]! > n[i]!)
      throw new ArgumentError({
        argument: "events",
        index: i,
        expected: `at most n[${i}], which is ${n[i]}`,
        found: events[i],
      });
}

const sumOf = (counts: ArrayLike<number>): number =>
  Array.from(counts).reduce((sum, count) => sum + count, 0);

/**
 * Chi-square test that several independent groups share one proportion: sum n_g (p_g - p)^2 / (p (1 - p)), one degree of freedom fewer
 * than groups that have anybody in them.
 *
 * @returns `no-rows`, `one-group` or `no-variance` (nobody, or everybody, with the event)
 * @throws ArgumentError naming the column and index at fault
 * @source Pearson 1900, Philos Mag 50:157
 */
export function proportionsTest(groups: GroupCounts): TestResult {
  checkColumnNames(groupCountsNames, { groups });
  checkGroupCounts(groups);
  const { events, n } = groups;
  const used = Array.from(n, (_, g) => g).filter((g) => n[g]! > 0);
  const df = Math.max(0, used.length - 1);
  if (used.length === 0) return untested(df, "no-rows");
  if (used.length === 1) return untested(df, "one-group");
  const total = sumOf(n);
  const share = sumOf(events) / total;
  const spread = share * (1 - share);
  if (!(spread > 0)) return untested(df, "no-variance");
  const statistic = used.reduce((sum, g) => sum + (n[g]! * (events[g]! / n[g]! - share) ** 2) / spread, 0);
  return tested(statistic, df);
}

/** Trend of a proportion over ordered groups. */
export interface ProportionTrend {
  /** Positive where the share rises with the scores. */
  readonly z: number | null;
  /** Two-sided. */
  readonly p: number | null;
  readonly scores: readonly number[];
  readonly reason: Reason | null;
}

export const proportionTrendOptions = {
  /** Of the groups. Default 0, 1, 2, ... */
  scores: list<ArrayLike<number>>(),
};

export interface ProportionTrendOptions extends OptionsOf<typeof proportionTrendOptions> {}

/**
 * Test of a linear trend of a proportion over ordered groups.
 *
 * z = sum s_g (x_g - n_g p) / sqrt(p (1 - p) (sum n_g s_g^2 - (sum n_g s_g)^2 / N)), summed from the mean score.
 *
 * @returns `no-rows`, `one-group` (anybody at one score only) or `no-variance` (nobody, or everybody, with the event)
 * @throws ArgumentError naming the column and index at fault
 * @source Cochran 1954, Biometrics 10:417; Armitage 1955, Biometrics 11:375
 */
export function proportionTrend(groups: GroupCounts, options: ProportionTrendOptions = {}): ProportionTrend {
  checkColumnNames(groupCountsNames, { groups });
  const { scores: asked } = readOptions(proportionTrendOptions, options);
  checkGroupCounts(groups);
  const { events, n } = groups;
  const given = asked ?? Array.from(n, (_, g) => g);
  checkSameLength({ name: "scores", values: given }, { name: "n", values: n });
  const scores = Array.from(given);
  checkColumn({ name: "scores", values: scores }, "finite");
  const none = (reason: Reason): ProportionTrend => ({ z: null, p: null, scores, reason });
  const total = sumOf(n);
  if (total === 0) return none("no-rows");
  const at = new Set(scores.filter((_, g) => n[g]! > 0));
  if (at.size < 2) return none("one-group");
  const share = sumOf(events) / total;
  if (!(share * (1 - share) > 0)) return none("no-variance");
  const middle = scores.reduce((sum, score, g) => sum + (score * n[g]!) / total, 0);
  let apart = 0;
  let spread = 0;
  scores.forEach((score, g) => {
    const size = n[g]!;
    apart += (score - middle) * (events[g]! - size * share);
    spread += size * (score - middle) ** 2;
  });
  const z = apart / Math.sqrt(share * (1 - share) * spread);
  return { z, p: normalTwoSided(z), scores, reason: null };
}
