import { ArgumentError, checkColumn, checkSameLength } from "../shared/arguments.js";
import { normalCritical, normalTwoSided } from "../shared/distributions.js";
import type { Reason } from "../shared/figure.js";
import {
  checkColumnNames,
  type LevelOption,
  levelOption,
  type NamesOf,
  readOptions,
} from "../shared/options.js";

/** For each subject, how many of the raters chose each category: one column a category. */
export interface ChosenCategories {
  readonly categories: readonly string[];
  readonly counts: readonly ArrayLike<number>[];
}

export const chosenCategoriesNames: NamesOf<ChosenCategories> = { categories: true, counts: true };

export interface SeveralRatersKappa {
  readonly subjects: number;
  /** Ratings a subject, the same for all. */
  readonly raters: number;
  readonly observedAgreement: number | null;
  readonly chanceAgreement: number | null;
  readonly kappa: number | null;
  /** Under no agreement beyond chance. */
  readonly standardErrorNull: number | null;
  readonly z: number | null;
  readonly p: number | null;
  /** From the spread of agreement over subjects, each left out in turn. */
  readonly standardError: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  /** None with `no-rows` for a category that nobody chose, with `no-variance` for one that everybody chose always. */
  readonly byCategory: readonly {
    readonly category: string;
    readonly kappa: number | null;
    readonly reason: Reason | null;
  }[];
  readonly level: number;
  readonly reason: Reason | null;
}

/**
 * Kappa of the same number of ratings for every subject, by raters who need not be the same.
 *
 * Agreement of a subject: pairs of its ratings that agree over all pairs; chance: sum of squared overall shares q. Null variance
 * 2 [(sum q (1-q))^2 - sum q (1-q)(1-2q)] / (N m (m-1) (sum q (1-q))^2). The other standard error is the jackknife's.
 *
 * @param columns one column a category, a row a subject; every row sums to the same number of ratings, two or more
 * @returns nulls with `no-rows`; `no-variance` where a single category was ever used; kappa without interval with `too-few-rows` (one
 *   subject), or `no-variance` where all but one subject have a single category
 * @throws ArgumentError naming the column and index of a value at fault, or the row with another number of ratings
 * @source Fleiss 1971, Psychol Bull 76:378; null variance: Fleiss, Nee & Landis 1979, Psychol Bull 86:974
 */
export function severalRatersKappa(columns: ChosenCategories, options: LevelOption = {}): SeveralRatersKappa {
  checkColumnNames(chosenCategoriesNames, { columns });
  const { level } = readOptions(levelOption, options);
  const z = normalCritical(level);
  const { subjects, raters } = checkedCounts(columns);
  const { categories, counts } = columns;
  const none = {
    observedAgreement: null,
    chanceAgreement: null,
    kappa: null,
    standardErrorNull: null,
    z: null,
    p: null,
  };
  const noInterval = { standardError: null, lower: null, upper: null };
  const common = { subjects, raters, level };
  const byCategoryNone = (used: (place: number) => boolean) =>
    categories.map((category, i) => ({
      category,
      kappa: null,
      reason: used(i) ? ("no-variance" as const) : ("no-rows" as const),
    }));
  if (subjects === 0)
    return { ...common, ...none, ...noInterval, byCategory: byCategoryNone(() => false), reason: "no-rows" };
  const agreed = new Float64Array(subjects);
  const totals = counts.map((column) => {
    let total = 0;
    for (let i = 0; i < subjects; i++) {
      const chosen = column[i]!;
      total += chosen;
      agreed[i]! += (chosen * (chosen - 1)) / (raters * (raters - 1));
    }
    return total;
  });
  const sum = agreed.reduce((all, one) => all + one, 0);
  const ratings = subjects * raters;
  const shares = totals.map((total) => total / ratings);
  const kappaFrom = (agreement: number, chance: number): number => (agreement - chance) / (1 - chance);
  const chance = shares.reduce((all, q) => all + q * q, 0);
  if (totals.some((total) => total === ratings)) {
    const found = { ...none, observedAgreement: 1, chanceAgreement: 1 };
    const byCategory = byCategoryNone((place) => totals[place] === ratings);
    return { ...common, ...found, ...noInterval, byCategory, reason: "no-variance" };
  }
  const value = kappaFrom(sum / subjects, chance);
  const spread = shares.reduce((all, q) => all + q * (1 - q), 0);
  const skew = shares.reduce((all, q) => all + q * (1 - q) * (1 - 2 * q), 0);
  const nullError = Math.sqrt((2 * (spread ** 2 - skew)) / (ratings * (raters - 1))) / spread;
  const leftOut = Float64Array.from(agreed, (own, i) => {
    const rest = ratings - raters;
    const without = totals.reduce((all, total, c) => all + ((total - counts[c]![i]!) / rest) ** 2, 0);
    return kappaFrom((sum - own) / (subjects - 1), without);
  });
  const standardError = jackknifeError(leftOut);
  const test = nullError > 0 ? value / nullError : null;
  return {
    ...common,
    observedAgreement: sum / subjects,
    chanceAgreement: chance,
    kappa: value,
    standardErrorNull: nullError,
    z: test,
    p: test === null ? null : normalTwoSided(test),
    standardError,
    lower: standardError === null ? null : value - z * standardError,
    upper: standardError === null ? null : value + z * standardError,
    byCategory: categories.map((category, c) => ({
      category,
      ...categoryKappa(counts[c]!, { raters, share: shares[c]! }),
    })),
    reason: standardError !== null ? null : subjects < 2 ? "too-few-rows" : "no-variance",
  };
}

/** Null where leaving a subject out leaves a single category, or no subject. */
function jackknifeError(values: Float64Array): number | null {
  const n = values.length;
  if (n < 2 || !values.every(Number.isFinite)) return null;
  const mean = values.reduce((sum, value) => sum + value / n, 0);
  return Math.sqrt(((n - 1) / n) * values.reduce((sum, value) => sum + (value - mean) ** 2, 0));
}

/** This category against all others. */
function categoryKappa(
  chosen: ArrayLike<number>,
  { raters, share }: { readonly raters: number; readonly share: number },
): { readonly kappa: number | null; readonly reason: Reason | null } {
  if (share === 0 || share === 1) return { kappa: null, reason: share === 0 ? "no-rows" : "no-variance" };
  let split = 0;
  for (let i = 0; i < chosen.length; i++) split += chosen[i]! * (raters - chosen[i]!);
  const expected = chosen.length * raters * (raters - 1) * share * (1 - share);
  return { kappa: 1 - split / expected, reason: null };
}

function checkedCounts({ categories, counts }: ChosenCategories): { subjects: number; raters: number } {
  const names = { name: "categories", values: { length: categories.length } };
  checkSameLength({ name: "counts", values: { length: counts.length } }, names);
  const first = { name: "counts[0]", values: counts[0] ?? [] };
  counts.forEach((values, i) => {
    const column = { name: `counts[${i}]`, values };
    checkSameLength(column, first);
    checkColumn(column, "count");
  });
  const subjects = first.values.length;
  const ratingsOf = (row: number): number => counts.reduce((sum, column) => sum + column[row]!, 0);
  const raters = subjects === 0 ? 0 : ratingsOf(0);
  for (let i = 0; i < subjects; i++) {
    const found = ratingsOf(i);
    if (found === raters && found >= 2) continue;
    const expected = `two ratings or more, as many as of subject 0 (${raters})`;
    throw new ArgumentError({ argument: "counts", index: i, expected, found });
  }
  return { subjects, raters };
}
