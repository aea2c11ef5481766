import { factorSymmetric, quadraticForm, rowsOfMatrix } from "../linear/symmetric.js";
import { checkColumn, checkSameLength } from "../shared/arguments.js";
import { chiSquareUpperTail } from "../shared/distributions.js";
import type { Reason } from "../shared/figure.js";
import { checkColumnNames, number, type OptionsOf, readOptions } from "../shared/options.js";
import { causeOption, checkTimesAndCauses } from "./causes.js";
import { graySums } from "./gray-sums.js";
import { type GroupedCauses, groupedCausesNames } from "./grouped-causes.js";

export const grayOptions = {
  /** The event compared. Default 1. */
  cause: causeOption,
  /** Power of the pooled share without this event by which each time counts. Default 0: all times alike. */
  rho: number("finite", 0),
};

export interface GrayOptions extends OptionsOf<typeof grayOptions> {}

export interface GrayTest {
  readonly cause: number;
  /** Codes of the groups, ascending; the other arrays are in this order. */
  readonly groups: readonly number[];
  readonly n: readonly number[];
  /** Events of this cause, weighted where the times are, and how many equal incidences would have given. */
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

function checkGrouped(columns: GroupedCauses): void {
  checkTimesAndCauses(columns);
  const times = { name: "times", values: columns.times };
  const codes = [
    { name: "groups", values: columns.groups },
    ...(columns.strata !== undefined ? [{ name: "strata", values: columns.strata }] : []),
  ];
  for (const column of codes) {
    checkSameLength(column, times);
    checkColumn(column, "code");
  }
}

function reasonForNoTest(columns: GroupedCauses, question: { groups: number; cause: number }): Reason {
  if (columns.times.length === 0) return "no-rows";
  if (question.groups < 2) return "one-group";
  return Array.from(columns.causes).includes(question.cause) ? "no-variance" : "no-events";
}

/**
 * Gray's test of equal cumulative incidence of one event in two or more groups, other events being possible; within strata where given.
 *
 * Score of group k: sum over times of W (d_k - R_k d / R), where d_k are its events of this cause and R_k = Y_k (1 - F_k(t-)) / S_k(t-)
 * its adjusted number at risk (Y_k at risk, F_k its cumulative incidence, S_k its share without any event); W = (1 - F(t-))^rho, F the
 * incidence common to all groups, which rises by d / sum of (Y_k / S_k(t-)). Variance: the influence of each group's two kinds of
 * events on the score, see gray-sums.ts. Ties: events at one time are taken together, with the factors 1 - (d - 1) / (N - 1), N
 * being the number at risk for other events and S_k(t-) sum of (Y / S(t-)) for this one. Chi-square with as many degrees of freedom
 * as the variance has rank.
 *
 * @returns null with `no-rows`, `one-group`, `no-events` (of this cause), or `no-variance`: no event of this cause while two groups were at
 *   risk, or a tie so large among so few that the variance is not positive
 * @throws ArgumentError naming the column and index of a value at fault, or the option
 * @source Gray 1988, Ann Stat 16:1141
 */
export function grayTest(columns: GroupedCauses, options: GrayOptions = {}): GrayTest {
  checkColumnNames(groupedCausesNames, { columns });
  const { cause, rho } = readOptions(grayOptions, options);
  checkGrouped(columns);
  const { groups, n, observed, expected, variance } = graySums(columns, { cause, rho });
  const size = groups.length;
  const surplus = observed.map((value, g) => value - expected[g]!);
  const factor = factorSymmetric(variance, { size, tolerance: 1e-10 });
  const df = factor.kept.length;
  const common = { cause, groups, n, observed, expected, variance: rowsOfMatrix(variance, size), df };
  const chiSquare = df === 0 ? Number.NaN : quadraticForm(factor, surplus);
  if (!Number.isFinite(chiSquare)) {
    const reason = reasonForNoTest(columns, { groups: size, cause });
    return { ...common, chiSquare: null, p: null, z: null, reason };
  }
  return {
    ...common,
    chiSquare,
    p: chiSquareUpperTail(chiSquare, df),
    z: size === 2 ? surplus[0]! / Math.sqrt(variance[0]!) : null,
    reason: null,
  };
}
