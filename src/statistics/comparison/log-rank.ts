import { factorSymmetric, quadraticForm, rowsOfMatrix } from "../linear/symmetric.js";
import { checkColumn, checkSameLength } from "../shared/arguments.js";
import { chiSquareUpperTail, normalTwoSided, normalUpperTail } from "../shared/distributions.js";
import type { Reason } from "../shared/figure.js";
import { checkColumnNames, list, type OptionsOf, oneOf, type Read, readOptions } from "../shared/options.js";
import { type ClusteredSums, clusteredObservedAndExpected } from "./clustered-scores.js";
import { checkGroupedTimes, type GroupedTimes, groupedTimesNames, timeWeight } from "./grouped-times.js";
import { type ObservedAndExpected, observedAndExpected } from "./observed-and-expected.js";

export const logRankOptions = {
  /** Default "equal". */
  weight: timeWeight,
  /** Default "robust", summed within clusters, where there are clusters, else "hypergeometric". */
  variance: oneOf(["hypergeometric", "robust"]),
};

export interface LogRankOptions extends OptionsOf<typeof logRankOptions> {}

export const logRankTrendOptions = {
  ...logRankOptions,
  /** One for each group in ascending order of its code. Default the codes themselves. */
  scores: list<readonly number[]>(),
};

export interface LogRankTrendOptions extends OptionsOf<typeof logRankTrendOptions> {}

export interface LogRank {
  /** Codes of the groups, ascending; the other arrays are in this order. */
  readonly groups: readonly number[];
  readonly n: readonly number[];
  /** Weighted where the times are. */
  readonly observed: readonly number[];
  readonly expected: readonly number[];
  readonly variance: readonly (readonly number[])[];
  readonly chiSquare: number | null;
  readonly df: number;
  readonly p: number | null;
  /** For two groups: of the first, positive with more events than expected. */
  readonly z: number | null;
  /** For two groups: one-sided p-values of the first having more events than expected, or fewer. */
  readonly oneSided: { readonly more: number; readonly fewer: number } | null;
  readonly reason: Reason | null;
}

export interface LogRankTrend {
  readonly groups: readonly number[];
  readonly scores: readonly number[];
  readonly z: number | null;
  readonly p: number | null;
  readonly reason: Reason | null;
}

/** A variance below this part of its own terms is rounding. */
const tolerance = 1e-12;

const sumsOf = (
  columns: GroupedTimes,
  { weight, variance }: Read<typeof logRankOptions>,
): ObservedAndExpected | ClusteredSums =>
  (variance ?? (columns.clusters ? "robust" : "hypergeometric")) === "robust"
    ? clusteredObservedAndExpected(columns, weight)
    : observedAndExpected(columns, weight);

/** Why no comparison is possible. */
export const reasonForNoTest = (columns: GroupedTimes, groups: readonly number[]): Reason =>
  reasonOfCounts({
    rows: columns.times.length,
    groups: groups.length,
    anyEvent: Array.from(columns.events).some((event) => event === 1),
  });

interface Compared {
  readonly rows: number;
  readonly groups: number;
  readonly anyEvent: boolean;
}

function reasonOfCounts({ rows, groups, anyEvent }: Compared): Reason {
  if (rows === 0) return "no-rows";
  if (groups < 2) return "one-group";
  return anyEvent ? "no-variance" : "no-events";
}

/**
 * Whether there are at most as many clusters as differences asked about: with so few the statistic is their number whatever the data are. Where
 * no groups were at risk together nothing is asked.
 */
export const tooFewClusters = (
  sums: ObservedAndExpected | ClusteredSums,
  asked = Number.POSITIVE_INFINITY,
): boolean => "pulling" in sums && sums.differences > 0 && sums.pulling <= Math.min(asked, sums.differences);

/**
 * Log-rank test of equal curves in two or more groups, within strata where given, with delayed entry where given.
 *
 * At each event time with d events among n at risk, n_j of them in group j: expected d n_j / n, covariance
 * d (n - d) / (n - 1) (n_j / n [j = k] - n_j n_k / n^2); sums over times and strata; chi-square = (O - E)' V^-1 (O - E), with as many
 * degrees of freedom as V has rank. Ties by this hypergeometric variance. The weights of LogRankOptions multiply O and E, their squares V.
 *
 * With clusters (fingers of one person) V is the sum over clusters of the squared sum of what their rows give to the score: the robust
 * score test of proportional hazards at a ratio of 1. Without clusters that variance takes each row as its own. It needs many clusters:
 * simulated with one to three records a person, a nominal 5 % was about 9 % with 10 people, 8 % with 20, 7 % with 40 and 6 % with 100 (taking the
 * records as independent: 12 % throughout). permutedLogRank permutes whole people and kept its 5 % in the same simulation; it is the one for
 * small studies where everybody's records lie in one group.
 *
 * @returns null with `no-rows`, `one-group`, `no-events`, `no-variance` where no event happened with two groups at risk or rows cancel
 *   within their clusters, or `too-few-rows` with no more clusters than differences between groups (k - 1 of k groups)
 * @throws ArgumentError naming the column and index of a value at fault
 * @source Mantel 1966, Cancer Chemother Rep 50:163; Peto & Peto 1972, J R Stat Soc A 135:185; weights: Gehan 1965, Biometrika 52:203
 *   ("at-risk"), Tarone & Ware 1977, Biometrika 64:156 ("root-at-risk"), Prentice 1978, Biometrika 65:167 ("peto-prentice"), Fleming &
 *   Harrington 1991, Counting Processes (rho, gamma); clusters: Lin & Wei 1989, J Am Stat Assoc 84:1074
 */
export function logRank(columns: GroupedTimes, options: LogRankOptions = {}): LogRank {
  checkColumnNames(groupedTimesNames, { columns });
  checkGroupedTimes(columns);
  return logRankOfSums(
    sumsOf(columns, readOptions(logRankOptions, options)),
    Array.from(columns.events).some((event) => event === 1),
  );
}

/** The test from its sums. @param anyEvent whether an event was seen at all, which says why there is no test */
export function logRankOfSums(sums: ObservedAndExpected | ClusteredSums, anyEvent: boolean): LogRank {
  const { groups, n, observed, expected, variance } = sums;
  const size = groups.length;
  const surplus = observed.map((value, g) => value - expected[g]!);
  const factor = factorSymmetric(variance, { size, tolerance: 1e-10 });
  // the rows of V sum to 0: one group of each set that was ever at risk together says nothing new
  const df = factor.kept.length;
  const common = { groups, n, observed, expected, variance: rowsOfMatrix(variance, size) };
  const tooFew = tooFewClusters(sums);
  if (df === 0 || tooFew) {
    const none = { chiSquare: null, df, p: null, z: null, oneSided: null };
    const rows = n.reduce((sum, count) => sum + count, 0);
    const reason = tooFew ? "too-few-rows" : reasonOfCounts({ rows, groups: size, anyEvent });
    return { ...common, ...none, reason };
  }
  const chiSquare = quadraticForm(factor, surplus);
  const z = size === 2 ? surplus[0]! / Math.sqrt(variance[0]!) : null;
  return {
    ...common,
    chiSquare,
    df,
    p: chiSquareUpperTail(chiSquare, df),
    z,
    oneSided: z === null ? null : { more: normalUpperTail(z), fewer: normalUpperTail(-z) },
    reason: null,
  };
}

/**
 * Log-rank test for trend over ordered groups.
 *
 * z = sum a_j (O_j - E_j) / sqrt(a' V a) for scores a; positive where higher scores have more events than expected.
 *
 * @param options scores: one for each group in ascending order of its code; default the codes themselves
 * @returns null as logRank; `too-few-rows` with one cluster
 * @throws ArgumentError for scores that are not as many as the groups, and as logRank
 * @source Tarone 1975, Biometrika 62:679
 */
export function logRankTrend(columns: GroupedTimes, options: LogRankTrendOptions = {}): LogRankTrend {
  checkColumnNames(groupedTimesNames, { columns });
  checkGroupedTimes(columns);
  const { scores: given, ...ofSums } = readOptions(logRankTrendOptions, options);
  const sums = sumsOf(columns, ofSums);
  const { groups, observed, expected, variance } = sums;
  const scores = given ?? groups;
  checkSameLength({ name: "scores", values: scores }, { name: "the groups", values: groups });
  checkColumn({ name: "scores", values: scores }, "finite");
  let sum = 0;
  let spread = 0;
  let size = 0;
  scores.forEach((a, j) => {
    sum += a * (observed[j]! - expected[j]!);
    scores.forEach((b, k) => {
      const term = a * b * variance[j * groups.length + k]!;
      spread += term;
      size += Math.abs(term);
    });
  });
  const tooFew = tooFewClusters(sums, 1);
  if (tooFew || !(spread > tolerance * size)) {
    const reason = tooFew ? "too-few-rows" : reasonForNoTest(columns, groups);
    return { groups, scores, z: null, p: null, reason };
  }
  const z = sum / Math.sqrt(spread);
  return { groups, scores, z, p: normalTwoSided(z), reason: null };
}
