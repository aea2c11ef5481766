import { ArgumentError, checkColumn, checkSameLength } from "../shared/arguments.js";
import {
  checkColumnNames,
  list,
  type NamesOf,
  needed,
  type OptionsOf,
  readOptions,
} from "../shared/options.js";

/** Two raters' categories for the same subjects, row by row, as places in the list of categories (0 for the first). */
export interface RatedPairs {
  readonly first: ArrayLike<number>;
  readonly second: ArrayLike<number>;
}

export const ratedPairsNames: NamesOf<RatedPairs> = { first: true, second: true };

/** Counts of subjects: rows by the first rater's category, columns by the second's, both in the order of the categories. */
export interface AgreementTable {
  readonly categories: readonly string[];
  readonly counts: readonly ArrayLike<number>[];
}

export const agreementTableNames: NamesOf<AgreementTable> = { categories: true, counts: true };

export const categoriesOption = {
  /** Names in order (for weights the order matters), also those that nobody used. */
  categories: needed(list<readonly string[]>("an array of names")),
};

export interface CategoriesOption extends OptionsOf<typeof categoriesOption> {}

/**
 * Counts the pairs of two raters.
 *
 * @throws ArgumentError naming the column and index of a value that is not a place in the categories, or a name given twice
 */
export function agreementTable(columns: RatedPairs, options: CategoriesOption): AgreementTable {
  checkColumnNames(ratedPairsNames, { columns });
  const { first, second } = columns;
  const { categories } = readOptions(categoriesOption, options);
  checkCategories(categories);
  checkSameLength({ name: "second", values: second }, { name: "first", values: first });
  checkPlaces({ name: "first", values: first }, categories.length);
  checkPlaces({ name: "second", values: second }, categories.length);
  const counts = categories.map(() => new Array<number>(categories.length).fill(0));
  for (let row = 0; row < first.length; row++) counts[first[row]!]![second[row]!]! += 1;
  return { categories, counts };
}

function checkPlaces(column: { name: string; values: ArrayLike<number> }, size: number): void {
  checkColumn(column, "count");
  for (let i = 0; i < column.values.length; i++) {
    const found = column.values[i]!;
    if (found < size) continue;
    const expected = `the place of one of ${size} categories, 0 to ${size - 1}`;
    throw new ArgumentError({ argument: column.name, index: i, expected, found });
  }
}

function checkCategories(categories: readonly string[]): void {
  if (categories.length === 0)
    throw new ArgumentError({ argument: "categories", index: null, expected: "one name or more", found: 0 });
  categories.forEach((name, i) => {
    if (categories.indexOf(name) < i)
      throw new ArgumentError({
        argument: "categories",
        index: i,
        expected: "a name not given before",
        found: `"${name}"`,
      });
  });
}

/** @throws ArgumentError unless the table is square, has one row a category, and counts of 0 or more */
export function checkTable({ categories, counts }: AgreementTable): void {
  checkCategories(categories);
  const names = { name: "categories", values: { length: categories.length } };
  checkSameLength({ name: "counts", values: { length: counts.length } }, names);
  counts.forEach((values, i) => {
    checkSameLength({ name: `counts[${i}]`, values }, names);
    checkColumn({ name: `counts[${i}]`, values }, "not negative");
  });
}

/** Shares of all subjects, and both margins. */
export interface TableShares {
  readonly n: number;
  readonly cells: readonly (readonly number[])[];
  readonly first: readonly number[];
  readonly second: readonly number[];
}

/** Of a checked table; null without subjects. */
export function sharesOfTable({ counts }: AgreementTable): TableShares | null {
  const rows = counts.map((row) => Array.from(row));
  const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);
  const firsts = rows.map(sum);
  const seconds = rows.map((_, j) => sum(rows.map((row) => row[j]!)));
  const n = sum(firsts);
  if (!(n > 0)) return null;
  return {
    n,
    cells: rows.map((row) => row.map((count) => count / n)),
    first: firsts.map((count) => count / n),
    second: seconds.map((count) => count / n),
  };
}
