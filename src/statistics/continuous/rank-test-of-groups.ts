import { chiSquareUpperTail } from "../shared/distributions.js";
import type { TestResult } from "../shared/figure.js";
import { checkColumnNames } from "../shared/options.js";
import { type GroupedValues, groupedValuesNames, groupsOf } from "./groups-of-values.js";
import { midranks } from "./ranks.js";

/**
 * Rank test of several independent groups: does any tend to larger values than the others?
 *
 * H = (12 / (N (N + 1)) sum(R_g^2 / n_g) - 3 (N + 1)) / (1 - sum(t^3 - t) / (N^3 - N)), R_g the rank sums, t the sizes of ties; against
 * chi-square with one degree of freedom fewer than groups. Summed here as 12 sum(n_g (mean rank - middle)^2) / (N (N + 1)), which is the
 * same without the cancellation. Ties are exact comparisons: round what comes from a calculation first, for 0.1 + 0.2 is not 0.3.
 *
 * @returns nulls with `no-rows`, `one-group` or `no-variance` (all values equal)
 * @throws ArgumentError naming the column and index at fault
 * @source Kruskal & Wallis 1952, J Am Stat Assoc 47:583
 */
export function rankTestOfGroups(rows: GroupedValues): TestResult {
  checkColumnNames(groupedValuesNames, { rows });
  const { codes, index } = groupsOf(rows);
  const n = index.length;
  const df = Math.max(0, codes.length - 1);
  const none = { statistic: null, df, p: null };
  if (n === 0) return { ...none, reason: "no-rows" };
  if (codes.length === 1) return { ...none, reason: "one-group" };
  const { ranks, tieTerm } = midranks(rows.values);
  if (tieTerm === n * (n * n - 1)) return { ...none, reason: "no-variance" };
  const sizes = new Float64Array(codes.length);
  const apart = new Float64Array(codes.length);
  ranks.forEach((rank, row) => {
    sizes[index[row]!]! += 1;
    apart[index[row]!]! += rank - (n + 1) / 2;
  });
  const between = apart.reduce((sum, value, group) => sum + (value * value) / sizes[group]!, 0);
  const statistic = ((12 / n / (n + 1)) * between) / (1 - tieTerm / (n * (n * n - 1)));
  return { statistic, df, p: chiSquareUpperTail(statistic, df), reason: null };
}
