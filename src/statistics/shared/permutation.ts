import { ArgumentError, checkColumn, checkSameLength } from "./arguments.js";
import { rowsByIndex } from "./clusters.js";
import { indexOfCodes } from "./codes.js";
import { checkColumnNames, type NamesOf, needed, number, type OptionsOf, readOptions } from "./options.js";
import { seededGenerator } from "./random.js";

/** Labels to be permuted, and a figure that depends on who has which. */
export interface PermutedLabels {
  /** One a row: group codes, scores, a column. */
  readonly labels: ArrayLike<number>;
  /** Whole numbers: labels stay within their stratum. */
  readonly strata?: ArrayLike<number>;
  /** Of the labels as they stand; the array belongs to the engine. For a two-sided p it must be about 0 when nothing is going on. */
  readonly statistic: (labels: Float64Array) => number;
}

export const permutedLabelsNames: NamesOf<PermutedLabels> = { labels: true, strata: true, statistic: true };

export const permutationOptions = {
  /** Whole number. */
  seed: needed(number("code")),
  /** Default 9,999. */
  draws: number("positive count", 9999),
};

export interface PermutationOptions extends OptionsOf<typeof permutationOptions> {}

/** Shares of random permutations that are at least as extreme, the data as they are among them; with the error of having drawn. */
export interface PermutationTest {
  readonly observed: number;
  /** P(statistic <= observed), P(statistic >= observed), P(|statistic| >= |observed|). */
  readonly less: number;
  readonly greater: number;
  readonly twoSided: number;
  /** Standard error of the two-sided p-value from the number of draws: sqrt(p (1 - p) / draws). */
  readonly monteCarloError: number;
  readonly draws: number;
}

/** A permutation within rounding of the observed one is equal to it. */
const equalWithin = (observed: number): number => 1e-9 * Math.abs(observed) + 1e-300;

/**
 * Permutation test by random permutations of the labels: p = (1 + permutations at least as extreme) / (1 + permutations), never 0.
 *
 * Permutation r is drawn from stream r of the seed. Valid where the labels could have been assigned otherwise, within strata where they are
 * given.
 *
 * @throws ArgumentError naming the column and index at fault, the seed or the number of draws (at least 1); also where the statistic is
 *   not a number
 * @source Fisher 1935, The Design of Experiments; the added 1: Phipson & Smyth 2010, Stat Appl Genet Mol Biol 9:39
 */
export function permutationTest(data: PermutedLabels, options: PermutationOptions): PermutationTest {
  checkColumnNames(permutedLabelsNames, { data });
  const { seed, draws } = readOptions(permutationOptions, options);
  const named = { name: "labels", values: data.labels };
  checkColumn(named, "finite");
  if (data.strata !== undefined) {
    checkSameLength({ name: "strata", values: data.strata }, named);
    checkColumn({ name: "strata", values: data.strata }, "code");
  }
  const { codes, index } = indexOfCodes(data.strata ?? new Int32Array(data.labels.length));
  const { rows, start } = rowsByIndex(index, codes.length);
  const labels = Float64Array.from(data.labels);
  const observed = checkedStatistic(data.statistic(labels));
  const slack = equalWithin(observed);
  const hits = { less: 0, greater: 0, twoSided: 0 };
  for (let draw = 0; draw < draws; draw++) {
    labels.set(data.labels);
    shuffleWithin(labels, { rows, start, uniform: seededGenerator(seed, draw).uniform });
    const value = checkedStatistic(data.statistic(labels));
    if (value <= observed + slack) hits.less++;
    if (value >= observed - slack) hits.greater++;
    if (Math.abs(value) >= Math.abs(observed) - slack) hits.twoSided++;
  }
  const p = (count: number): number => (count + 1) / (draws + 1);
  const twoSided = p(hits.twoSided);
  return {
    observed,
    less: p(hits.less),
    greater: p(hits.greater),
    twoSided,
    monteCarloError: Math.sqrt((twoSided * (1 - twoSided)) / draws),
    draws,
  };
}

function shuffleWithin(
  labels: Float64Array,
  by: { readonly rows: Int32Array; readonly start: Int32Array; readonly uniform: () => number },
): void {
  const { rows, start, uniform } = by;
  for (let stratum = 0; stratum + 1 < start.length; stratum++) {
    const from = start[stratum]!;
    for (let last = start[stratum + 1]! - 1; last > from; last--) {
      const one = rows[last]!;
      const other = rows[from + Math.floor(uniform() * (last - from + 1))]!;
      const kept = labels[one]!;
      labels[one] = labels[other]!;
      labels[other] = kept;
    }
  }
}

function checkedStatistic(value: number): number {
  if (Number.isNaN(value))
    throw new ArgumentError({
      argument: "statistic",
      index: null,
      expected: "a number for every permutation of the labels",
      found: value,
    });
  return value;
}
