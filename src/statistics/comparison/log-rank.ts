import { checkColumn, checkNumber, checkSameLength } from "../arguments.js";
import { chiSquareUpperTail, normalTwoSided } from "../distributions.js";
import type { Reason } from "../figure.js";
import { factorSymmetric, quadraticForm, rowsOfMatrix } from "../linear/symmetric.js";
import { checkGroupedTimes, type GroupedTimes, type TimeWeight } from "./grouped-times.js";
import { observedAndExpected } from "./observed-and-expected.js";

export interface LogRankOptions {
  /** Default "equal". */
  readonly weight?: TimeWeight;
}

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

function checkWeight(weight: TimeWeight): void {
  if (typeof weight === "string") return;
  checkNumber({ name: "weight.rho", value: weight.rho }, "not negative");
  checkNumber({ name: "weight.gamma", value: weight.gamma ?? 0 }, "not negative");
}

/** Why no comparison is possible. */
function silence(columns: GroupedTimes, groups: readonly number[]): Reason {
  if (columns.times.length === 0) return "no-rows";
  if (groups.length < 2) return "one-group";
  return Array.from(columns.events).some((event) => event === 1) ? "no-variance" : "no-events";
}

/**
 * Log-rank test of equal curves in two or more groups, within strata where given, with delayed entry where given.
 *
 * At each event time with d events among n at risk, n_j of them in group j: expected d n_j / n, covariance
 * d (n - d) / (n - 1) (n_j / n [j = k] - n_j n_k / n^2); sums over times and strata; chi-square = (O - E)' V^-1 (O - E), with as many
 * degrees of freedom as V has rank. Ties by this hypergeometric variance. The weights of LogRankOptions multiply O and E, their squares V.
 *
 * @returns null with `no-rows`, `one-group`, `no-events`, or `no-variance` where no event happened with two groups at risk
 * @throws ArgumentError naming the column and index of a value at fault
 * @source Mantel 1966, Cancer Chemother Rep 50:163; Peto & Peto 1972, J R Stat Soc A 135:185; weights: Gehan 1965, Biometrika 52:203
 *   ("at-risk"), Tarone & Ware 1977, Biometrika 64:156 ("root-at-risk"), Fleming & Harrington 1991, Counting Processes (rho, gamma)
 */
export function logRank(columns: GroupedTimes, options: LogRankOptions = {}): LogRank {
  const { weight = "equal" } = options;
  checkGroupedTimes(columns);
  checkWeight(weight);
  const { groups, n, observed, expected, variance } = observedAndExpected(columns, weight);
  const size = groups.length;
  const surplus = observed.map((value, g) => value - (expected[g] as number));
  const factor = factorSymmetric(variance, { size, tolerance: 1e-10 });
  // the rows of V sum to 0: one group of each set that was ever at risk together says nothing new
  const df = factor.kept.length;
  const common = { groups, n, observed, expected, variance: rowsOfMatrix(variance, size) };
  if (df === 0) return { ...common, chiSquare: null, df, p: null, z: null, reason: silence(columns, groups) };
  const chiSquare = quadraticForm(factor, surplus);
  return {
    ...common,
    chiSquare,
    df,
    p: chiSquareUpperTail(chiSquare, df),
    z: size === 2 ? (surplus[0] as number) / Math.sqrt(variance[0] as number) : null,
    reason: null,
  };
}

/**
 * Log-rank test for trend over ordered groups.
 *
 * z = sum a_j (O_j - E_j) / sqrt(a' V a) for scores a; positive where higher scores have more events than expected.
 *
 * @param options scores: one for each group in ascending order of its code; default the codes themselves
 * @throws ArgumentError for scores that are not as many as the groups, and as logRank
 * @source Tarone 1975, Biometrika 62:679
 */
export function logRankTrend(
  columns: GroupedTimes,
  options: LogRankOptions & { readonly scores?: readonly number[] } = {},
): LogRankTrend {
  const { weight = "equal" } = options;
  checkGroupedTimes(columns);
  checkWeight(weight);
  const { groups, observed, expected, variance } = observedAndExpected(columns, weight);
  const scores = options.scores ?? groups;
  checkSameLength({ name: "scores", values: scores }, { name: "the groups", values: groups });
  checkColumn({ name: "scores", values: scores }, "finite");
  let sum = 0;
  let spread = 0;
  let size = 0;
  scores.forEach((a, j) => {
    sum += a * ((observed[j] as number) - (expected[j] as number));
    scores.forEach((b, k) => {
      const term = a * b * (variance[j * groups.length + k] as number);
      spread += term;
      size += Math.abs(term);
    });
  });
  if (!(spread > tolerance * size))
    return { groups, scores, z: null, p: null, reason: silence(columns, groups) };
  const z = sum / Math.sqrt(spread);
  return { groups, scores, z, p: normalTwoSided(z), reason: null };
}
