import { type ProportionInterval, wilson } from "../continuous/wilson.js";
import { checkColumn } from "../shared/arguments.js";
import type { Figure } from "../shared/figure.js";
import { checkColumnNames, type LevelOption, levelOption, readOptions } from "../shared/options.js";
import { type AgreementTable, agreementTableNames, checkTable } from "./kappa-table.js";

export interface AgreementShares {
  readonly n: number;
  readonly exact: ProportionInterval;
  /** The same category or a neighbouring one. */
  readonly withinOne: ProportionInterval;
  /** Second rater's category above, and below, the first's. */
  readonly secondHigher: ProportionInterval;
  readonly secondLower: ProportionInterval;
  /** For each category 2 n_ii / (n_i. + n_.i): given that one rater says it, the share where the other does too. */
  readonly byCategory: readonly { readonly category: string; readonly share: Figure }[];
}

/**
 * Plain shares of agreement of two raters, to be printed beside kappa.
 *
 * @param table square; whole counts
 * @returns shares null with `no-rows`; a category that nobody used has no share (`no-rows`)
 * @throws ArgumentError for a table that is not square or a count that is not whole
 * @source agreement in a category: Cicchetti & Feinstein 1990, J Clin Epidemiol 43:551; intervals: Wilson 1927, J Am Stat Assoc 22:209
 */
export function agreementShares(table: AgreementTable, options: LevelOption = {}): AgreementShares {
  checkColumnNames(agreementTableNames, { table });
  const asked = readOptions(levelOption, options);
  checkTable(table);
  const { categories, counts } = table;
  counts.forEach((values, i) => {
    checkColumn({ name: `counts[${i}]`, values }, "count");
  });
  const count = (counted: (i: number, j: number) => boolean): number =>
    counts.reduce(
      (sum, row, i) =>
        sum + Array.from(row).reduce((within, value, j) => within + (counted(i, j) ? value : 0), 0),
      0,
    );
  const n = count(() => true);
  const share = (counted: (i: number, j: number) => boolean) => wilson(count(counted), n, asked);
  return {
    n,
    exact: share((i, j) => i === j),
    withinOne: share((i, j) => Math.abs(i - j) <= 1),
    secondHigher: share((i, j) => j > i),
    secondLower: share((i, j) => j < i),
    byCategory: categories.map((category, c) => {
      const named = count((i) => i === c) + count((_, j) => j === c);
      const both = 2 * count((i, j) => i === c && j === c);
      return { category, share: named > 0 ? { value: both / named } : { value: null, reason: "no-rows" } };
    }),
  };
}
