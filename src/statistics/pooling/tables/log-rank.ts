import { timeWeight } from "../../comparison/grouped-times.js";
import { type LogRank, logRankOfSums } from "../../comparison/log-rank.js";
import { addStratum, type ObservedAndExpected } from "../../comparison/observed-and-expected.js";
import { indexOfCodes } from "../../shared/codes.js";
import { number, type OptionsOf, readOptions } from "../../shared/options.js";
import { countsByKind, lineCounts, linesByStratum } from "./counts.js";
import { checkRiskSetTable, type RiskSetTable } from "./risk-set-table.js";

export const tableLogRankOptions = {
  /** Default "equal". */
  weight: timeWeight,
  /** Which event: 1, 2, ...; the others are ends of follow-up. Default 1. */
  cause: number("positive count", 1),
};

export interface TableLogRankOptions extends OptionsOf<typeof tableLogRankOptions> {}

/**
 * Log-rank test of equal curves in the groups of a table of risk sets, within its strata; as `logRank` gives it from the rows on the same
 * times, with the hypergeometric variance. Each row counts on its own: where people have several rows, the test is not the one to use.
 *
 * @returns null with `no-rows`, `one-group`, `no-events` or `no-variance`, as logRank
 * @throws ArgumentError naming the column and line of a table at fault, or the option
 * @source Mantel 1966, Cancer Chemother Rep 50:163; Peto & Peto 1972, J R Stat Soc A 135:185
 */
export function logRankOfTable(table: RiskSetTable, options: TableLogRankOptions = {}): LogRank {
  const { weight, cause } = readOptions(tableLogRankOptions, options);
  checkRiskSetTable(table);
  const { codes: groups, index: kindOf } = indexOfCodes(table.groups ?? new Int32Array(table.times.length));
  const kinds = groups.length;
  const sums: ObservedAndExpected = {
    groups,
    n: new Array<number>(kinds).fill(0),
    observed: new Array<number>(kinds).fill(0),
    expected: new Array<number>(kinds).fill(0),
    variance: new Float64Array(kinds * kinds),
  };
  const counted = lineCounts(table, cause);
  let events = 0;
  for (let line = 0; line < kindOf.length; line++) {
    sums.n[kindOf[line]!]! += table.entered[line]!;
    events += counted.own[line]!;
  }
  for (const lines of linesByStratum(table)) {
    const own = lines.map((line) => kindOf[line]!);
    const counts = countsByKind(table, { ...counted, lines, kindOf: own, kinds });
    addStratum(sums, { ...counts, count: counts.times.length, size: kinds }, weight);
  }
  return logRankOfSums(sums, events > 0);
}
