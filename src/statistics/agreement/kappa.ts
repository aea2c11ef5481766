import { normalCritical, normalTwoSided } from "../shared/distributions.js";
import type { Reason } from "../shared/figure.js";
import { checkColumnNames, confidenceLevel, type OptionsOf, oneOf, readOptions } from "../shared/options.js";
import {
  type AgreementTable,
  agreementTable,
  agreementTableNames,
  categoriesOption,
  checkTable,
  type RatedPairs,
  ratedPairsNames,
  sharesOfTable,
  type TableShares,
} from "./kappa-table.js";
import {
  bestAgreement,
  cell,
  type KappaWeights,
  kappaWeightings,
  sumOver,
  type Weight,
  weightsFor,
} from "./kappa-weights.js";

/**
 * - `maximum-below-one`: the raters' margins differ, so that even the best agreement they allow is short of 1
 * - `one-category-dominates`: one category holds over 80 % of all ratings (common practice, no source); kappa is then low
 *   even where raters nearly always agree
 */
export type KappaNote = "maximum-below-one" | "one-category-dominates";

export interface Kappa {
  readonly n: number;
  readonly categories: readonly string[];
  readonly weights: KappaWeights;
  /** Weighted share of agreement, and what the margins alone would give. */
  readonly observedAgreement: number | null;
  readonly chanceAgreement: number | null;
  readonly kappa: number | null;
  readonly standardError: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  /** Under no agreement beyond chance. */
  readonly standardErrorNull: number | null;
  readonly z: number | null;
  readonly p: number | null;
  /** Largest kappa that these margins allow. */
  readonly maximum: number | null;
  /** Kappa if all categories were equally common for both raters, given the observed agreement. */
  readonly withEvenMargins: number | null;
  /** For two categories |n_11 - n_22| / n and |n_12 - n_21| / n; null for more. */
  readonly prevalenceIndex: number | null;
  readonly biasIndex: number | null;
  readonly notes: readonly KappaNote[];
  readonly level: number;
  readonly reason: Reason | null;
}

export const kappaOptions = {
  /** Default "unweighted". */
  weights: oneOf(kappaWeightings, "unweighted"),
  /** Default 0.95. */
  level: confidenceLevel,
};

export interface KappaOptions extends OptionsOf<typeof kappaOptions> {}

export const namedKappaOptions = { ...categoriesOption, ...kappaOptions };

export interface NamedKappaOptions extends OptionsOf<typeof namedKappaOptions> {}

/**
 * Kappa of two raters, plain or weighted: (po - pe) / (1 - pe), weights 1 - |i-j| / (k-1) or 1 - ((i-j) / (k-1))^2.
 *
 * With w the weights, r and c the margins, u_ij = sum_l w_il c_l + sum_l w_lj r_l:
 * Var = (sum p_ij (w_ij - u_ij (1 - K))^2 - (K - pe (1 - K))^2) / (n (1 - pe)^2);
 * under chance: (sum r_i c_j (w_ij - u_ij)^2 - pe^2) / (n (1 - pe)^2). Normal interval, not cut at 1; the test is two-sided.
 *
 * @param columns places in the list of categories, equally long, row by row the same subject
 * @returns nulls with `no-rows`; `no-variance` where both raters gave one and the same category throughout
 * @throws ArgumentError naming the column and index of a value at fault
 * @source Cohen 1960, Educ Psychol Meas 20:37; Cohen 1968, Psychol Bull 70:213; errors: Fleiss, Cohen & Everitt 1969, Psychol Bull 72:323;
 *   maximum, prevalence and bias: Byrt, Bishop & Carlin 1993, J Clin Epidemiol 46:423; even margins: Brennan & Prediger 1981,
 *   Educ Psychol Meas 41:687
 * @example
 * kappa({ first: [0, 0, 1, 1], second: [0, 0, 1, 0] }, { categories: ["2", "3"] }).kappa // => 0.5
 */
export function kappa(columns: RatedPairs, options: NamedKappaOptions): Kappa {
  checkColumnNames(ratedPairsNames, { columns });
  const { categories, ...ofTable } = readOptions(namedKappaOptions, options);
  return kappaOfTable(agreementTable(columns, { categories }), ofTable);
}

/**
 * The same from counts.
 *
 * @param table square, counts 0 or more (not necessarily whole)
 * @throws ArgumentError for a table that is not square or a count at fault
 */
export function kappaOfTable(table: AgreementTable, options: KappaOptions = {}): Kappa {
  checkColumnNames(agreementTableNames, { table });
  const { weights, level } = readOptions(kappaOptions, options);
  checkTable(table);
  const z = normalCritical(level);
  const shares = sharesOfTable(table);
  const common = { n: shares?.n ?? 0, categories: table.categories, weights, level };
  if (shares === null) return { ...common, ...nothing, reason: "no-rows" };
  const weight = weightsFor(weights, table.categories.length);
  const indices = { ...indicesOf(shares), notes: notesOf(shares) };
  const observed = sumOver(shares, (i, j) => weight(i, j) * cell(shares, i, j));
  const chance = sumOver(shares, (i, j) => weight(i, j) * shares.first[i]! * shares.second[j]!);
  const agreed = { observedAgreement: observed, chanceAgreement: chance };
  if (shares.first.some((share, i) => share === 1 && shares.second[i] === 1))
    return { ...common, ...nothing, ...agreed, ...indices, reason: "no-variance" };
  const value = (observed - chance) / (1 - chance);
  const errors = standardErrors(shares, { weight, chance, value });
  // full agreement leaves rounding only
  const varies = errors.standardError > 1e-8;
  const even = sumOver(shares, weight) / table.categories.length ** 2;
  const test = errors.underChance > 0 ? value / errors.underChance : null;
  return {
    ...common,
    ...agreed,
    kappa: value,
    standardError: errors.standardError,
    lower: varies ? value - z * errors.standardError : null,
    upper: varies ? value + z * errors.standardError : null,
    standardErrorNull: errors.underChance,
    z: test,
    p: test === null ? null : normalTwoSided(test),
    maximum: (bestAgreement(shares, weight) - chance) / (1 - chance),
    withEvenMargins: (observed - even) / (1 - even),
    ...indices,
    reason: varies ? null : "no-variance",
  };
}

const nothing = {
  observedAgreement: null,
  chanceAgreement: null,
  kappa: null,
  standardError: null,
  lower: null,
  upper: null,
  standardErrorNull: null,
  z: null,
  p: null,
  maximum: null,
  withEvenMargins: null,
  prevalenceIndex: null,
  biasIndex: null,
  notes: [],
} as const;

/** Both variances are sums around their mean: a difference of two near-equal squares would lose digits. */
function standardErrors(
  shares: TableShares,
  { weight, chance, value }: { readonly weight: Weight; readonly chance: number; readonly value: number },
): { standardError: number; underChance: number } {
  const { n, first, second } = shares;
  const ofFirst = first.map((_, i) => second.reduce((sum, share, l) => sum + weight(i, l) * share, 0));
  const ofSecond = second.map((_, j) => first.reduce((sum, share, l) => sum + weight(l, j) * share, 0));
  const expected: Weight = (i, j) => ofFirst[i]! + ofSecond[j]!;
  const middle = value - chance * (1 - value);
  const spread = sumOver(
    shares,
    (i, j) => cell(shares, i, j) * (weight(i, j) - expected(i, j) * (1 - value) - middle) ** 2,
  );
  const underChance = sumOver(
    shares,
    (i, j) => first[i]! * second[j]! * (weight(i, j) - expected(i, j) + chance) ** 2,
  );
  const scale = Math.sqrt(n) * (1 - chance);
  return { standardError: Math.sqrt(spread) / scale, underChance: Math.sqrt(underChance) / scale };
}

function indicesOf(shares: TableShares): Pick<Kappa, "prevalenceIndex" | "biasIndex"> {
  if (shares.first.length !== 2) return { prevalenceIndex: null, biasIndex: null };
  return {
    prevalenceIndex: Math.abs(cell(shares, 0, 0) - cell(shares, 1, 1)),
    biasIndex: Math.abs(cell(shares, 0, 1) - cell(shares, 1, 0)),
  };
}

const dominating = 0.8;

function notesOf({ first, second }: TableShares): KappaNote[] {
  const notes: KappaNote[] = [];
  if (first.some((share, i) => share !== second[i])) notes.push("maximum-below-one");
  if (first.some((share, i) => (share + second[i]!) / 2 > dominating)) notes.push("one-category-dominates");
  return notes;
}
