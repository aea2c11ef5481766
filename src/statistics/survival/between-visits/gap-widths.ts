import { quantileOfSorted } from "../../continuous/quantiles.js";
import { rankTestOfGroups } from "../../continuous/rank-test-of-groups.js";
import type { TestResult } from "../../shared/figure.js";
import { checkColumnNames, type NamesOf, number, type OptionsOf, readOptions } from "../../shared/options.js";
import { type VisitColumns, visitsOf } from "./columns.js";

/** As in VisitColumns. */
export type GapColumns = Pick<VisitColumns, "left" | "right" | "ends" | "groups">;

const gapColumnsNames: NamesOf<GapColumns> = { left: true, right: true, ends: true, groups: true };

const gapOptions = {
  /** The end whose intervals are looked at. Default 1. */
  end: number("positive count", 1),
  /** A width above this many days is wide. Default 14. */
  wide: number("not negative", 14),
  /** The main path keeps intervals where more than this share of the ends is wide. Default 0.1. */
  share: number("share below one", 0.1),
  /** ... or where the wide widths, summed over the number of ends, come to more than this many days. Default 3. */
  meanWide: number("not negative", 3),
};

export interface GapOptions extends OptionsOf<typeof gapOptions> {}

/** Widths right - left, in the unit of the times; 0 for an exact time. Null without such ends. */
export interface GapWidths {
  /** Rows with the end. */
  readonly n: number;
  /** Of these, known to the day. */
  readonly exact: number;
  /** Wider than `wide`. */
  readonly wide: number;
  readonly wideShare: number | null;
  readonly lowerQuartile: number | null;
  readonly median: number | null;
  readonly upperQuartile: number | null;
  readonly largest: number | null;
  /** Summed width of the wide ones over all ends. */
  readonly meanWide: number | null;
}

/** What decides that intervals are kept: too many wide ones, or few but so wide that they weigh as much. */
export type KeptFor = "share" | "mean-width";

export interface GapSummary extends GapWidths {
  readonly groups: readonly (GapWidths & { readonly group: number })[];
  /** Whether widths differ between the groups: rank test with ties. Unlike widths: groups were seen on unlike schedules. */
  readonly comparison: TestResult;
  /** Whether the curves and models of intervals are the main path, and why; else the midpoints do. */
  readonly keepIntervals: boolean;
  readonly because: readonly KeptFor[];
}

function widthsOf(given: readonly number[], wide: number): GapWidths {
  const sorted = Float64Array.from(given).sort();
  const n = sorted.length;
  const wider = given.filter((width) => width > wide);
  const quartile = (p: number): number | null =>
    n === 0 ? null : quantileOfSorted(sorted, { share: p, type: 7 });
  return {
    n,
    exact: given.filter((width) => width === 0).length,
    wide: wider.length,
    wideShare: n === 0 ? null : wider.length / n,
    lowerQuartile: quartile(0.25),
    median: quartile(0.5),
    upperQuartile: quartile(0.75),
    largest: n === 0 ? null : sorted[n - 1]!,
    meanWide: n === 0 ? null : wider.reduce((sum, width) => sum + width, 0) / n,
  };
}

/**
 * How wide the intervals are in which an end is known to have come, by group, and whether they are so wide that they must be kept.
 *
 * Midpoints put an end in the middle of its interval. With visits on the same days for all and log-normal times (median 75 days) that moves
 * a share at one of the weeks 6 to 26 by up to 5 percentage points where every interval is 14 days wide, 16 at 28 to 56 days and 46 at 84 days,
 * in proportion to the share of wide intervals. The defaults hold it near 1 to 2 points: one end in ten wider than two weeks, or 3 days of
 * wide width an end (one in ten at 30 days, one in 28 at 84). Visits spread evenly over the calendar do less: 1 point at 28 days, 7 at 84.
 *
 * @returns nulls without such ends; no comparison with `no-rows`, `one-group`, `no-variance`
 * @throws ArgumentError naming the column and index at fault, or the option
 * @source Lindsey & Ryan 1998, Stat Med 17:219 (midpoints and unlike schedules); rank test: Kruskal & Wallis 1952, J Am Stat Assoc 47:583
 * @example
 * gapWidths({ left: [10, 42, 0], right: [10, 84, 42] }).wideShare // => 2/3
 */
export function gapWidths(columns: GapColumns, options: GapOptions = {}): GapSummary {
  checkColumnNames(gapColumnsNames, { columns });
  const { end, wide, share, meanWide } = readOptions(gapOptions, options);
  const visits = visitsOf(columns);
  const rows = Array.from(visits.ends.keys()).filter((row) => visits.ends[row] === end);
  const width = (row: number): number => visits.right[row]! - Math.max(0, visits.left[row]!);
  const all = widthsOf(rows.map(width), wide);
  const because: KeptFor[] = [];
  if (all.wideShare !== null && all.wideShare > share) because.push("share");
  if (all.meanWide !== null && all.meanWide > meanWide) because.push("mean-width");
  return {
    ...all,
    groups: visits.groups.map((group, i) => ({
      group,
      ...widthsOf(rows.filter((row) => visits.group[row] === i).map(width), wide),
    })),
    comparison: rankTestOfGroups({
      values: rows.map(width),
      groups: rows.map((row) => visits.groups[visits.group[row]!]!),
    }),
    keepIntervals: because.length > 0,
    because,
  };
}
