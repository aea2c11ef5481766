import { ArgumentError, checkColumn, checkSameLength } from "../shared/arguments.js";
import { clusterIndex } from "../shared/clusters.js";
import { normalCritical } from "../shared/distributions.js";
import type { Reason } from "../shared/figure.js";
import {
  checkColumnNames,
  checkedBy,
  checkWord,
  confidenceLevel,
  type NamesOf,
  type OptionsOf,
  oneOf,
  readOptions,
  shown,
  withDefault,
} from "../shared/options.js";
import { type Difference, differenceFrom } from "../survival/contrast.js";
import { areaCovariance } from "./roc-covariance.js";
import { type Direction, directions, type Placements, placementsOf } from "./roc-placements.js";
import { checkReadings, type ReadingsAndStates } from "./test-accuracy.js";

export interface RocArea {
  readonly affected: number;
  readonly healthy: number;
  /** Persons (or other clusters); null where each row counts as its own. */
  readonly clusters: number | null;
  /** Chance that an affected row reads beyond a healthy one, ties one half. */
  readonly area: number | null;
  readonly standardError: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  readonly interval: "plain" | "logit";
  readonly level: number;
  readonly reason: Reason | null;
}

export const rocAreaOptions = {
  /** Does a high or a low reading speak for the affected state? Default "high"; never turned round by itself. */
  direction: oneOf(directions, "high"),
  /** Default 0.95. */
  level: confidenceLevel,
  /** "plain" (default): area -+ z SE, cut at 0 and 1; "logit": on the scale of log A / (1 - A), better near 1. */
  interval: oneOf(["plain", "logit"], "plain"),
};

export interface RocAreaOptions extends OptionsOf<typeof rocAreaOptions> {}

const rocAreaNames: NamesOf<Parameters<typeof rocArea>[0]> = { values: true, states: true, clusters: true };

/**
 * Area under the ROC curve with the error of DeLong et al., or Obuchowski's for clustered rows (several fingers a person).
 *
 * With placements V_i of the m affected and V_j of the n healthy rows, Var = S_10 / m + S_01 / n, each S the n - 1 variance of the
 * placements. Clustered: sums of placement less area over each cluster, S from their squares with factor I / (I - 1) over clusters that
 * have such rows, and twice the products of a cluster's two sums, factor I / (I - 1) over all clusters.
 *
 * @param columns values, states (1 affected, 0 not), and whole-number clusters if rows belong together; equally long
 * @returns nulls with `no-rows`, or `one-group` where all rows have one state; the area alone with `too-few-rows` (one row, or one
 *   cluster, of a state) or `no-variance` (complete separation, or all readings equal)
 * @throws ArgumentError naming the column and index of a value at fault
 * @source DeLong, DeLong & Clarke-Pearson 1988, Biometrics 44:837; Sun & Xu 2014, IEEE Signal Process Lett 21:1389;
 *   clusters: Obuchowski 1997, Biometrics 53:567
 * @example
 * rocArea({ values: [1, 2, 3, 4], states: [0, 1, 0, 1] }).area // => 0.75
 */
export function rocArea(
  columns: ReadingsAndStates & { readonly clusters?: ArrayLike<number> },
  options: RocAreaOptions = {},
): RocArea {
  checkColumnNames(rocAreaNames, { columns });
  const { direction, level, interval } = readOptions(rocAreaOptions, options);
  checkReadings(columns);
  const groups = checkedClusters(columns.clusters, columns.values);
  const z = normalCritical(level);
  const placements = placementsOf(columns, direction);
  const common = { clusters: groups?.count ?? null, interval, level };
  if (placements === null) {
    const affected = Array.from(columns.states).filter((state) => state === 1).length;
    const counts = { affected, healthy: columns.values.length - affected };
    const none = { area: null, standardError: null, lower: null, upper: null };
    return { ...common, ...counts, ...none, reason: columns.values.length === 0 ? "no-rows" : "one-group" };
  }
  const { affected, healthy, area } = placements;
  const found = { ...common, affected, healthy, area };
  const variance = areaCovariance([placements, placements], groups);
  if (variance === null || !(variance > 0))
    return {
      ...found,
      standardError: variance,
      lower: null,
      upper: null,
      reason: variance === null ? "too-few-rows" : "no-variance",
    };
  const standardError = Math.sqrt(variance);
  return { ...found, standardError, ...areaLimits({ area, standardError }, { z, interval }), reason: null };
}

function areaLimits(
  { area, standardError }: { readonly area: number; readonly standardError: number },
  { z, interval }: { readonly z: number; readonly interval: "plain" | "logit" },
): { lower: number; upper: number } {
  if (interval === "plain")
    return { lower: Math.max(0, area - z * standardError), upper: Math.min(1, area + z * standardError) };
  const odds = area / (1 - area);
  const stretch = Math.exp((z * standardError) / (area * (1 - area)));
  return { lower: odds / stretch / (1 + odds / stretch), upper: (odds * stretch) / (1 + odds * stretch) };
}

/** Two readings of the same rows against one reference standard. */
export interface TwoReadings {
  readonly first: ArrayLike<number>;
  readonly second: ArrayLike<number>;
  readonly states: ArrayLike<number>;
  readonly clusters?: ArrayLike<number>;
}

export const twoReadingsNames: NamesOf<TwoReadings> = {
  first: true,
  second: true,
  states: true,
  clusters: true,
};

export interface AreaComparison extends Difference {
  readonly first: RocArea;
  readonly second: RocArea;
  readonly covariance: number | null;
}

const twoDirections = checkedBy<readonly [Direction, Direction]>((value, name) => {
  if (!Array.isArray(value) || value.length !== 2)
    throw new ArgumentError({
      argument: name,
      index: null,
      expected: "two directions, one for each reading",
      found: shown(value),
    });
  value.forEach((direction, i) => {
    checkWord({ name: `${name}[${i}]`, value: direction }, directions);
  });
});

export const areaComparisonOptions = {
  /** Default "high" for both. */
  directions: withDefault(twoDirections, ["high", "high"]),
  level: confidenceLevel,
};

export interface AreaComparisonOptions extends OptionsOf<typeof areaComparisonOptions> {}

/**
 * Difference of the areas of two readings taken on the same rows, first - second, with the paired normal test.
 *
 * Var = Var_1 + Var_2 - 2 Cov, Cov from the same placements (or cluster sums) as the variances of `rocArea`.
 *
 * @returns nulls with the reason of the area that is missing; the difference alone with `no-variance` where the two order the rows alike
 * @throws ArgumentError naming the column and index of a value at fault
 * @source DeLong, DeLong & Clarke-Pearson 1988, Biometrics 44:837; clusters: Obuchowski 1997, Biometrics 53:567
 */
export function compareAreas(columns: TwoReadings, options: AreaComparisonOptions = {}): AreaComparison {
  checkColumnNames(twoReadingsNames, { columns });
  const { directions, level } = readOptions(areaComparisonOptions, options);
  const { states, clusters } = columns;
  checkColumn({ name: "first", values: columns.first }, "finite");
  checkSameLength({ name: "second", values: columns.second }, { name: "first", values: columns.first });
  checkColumn({ name: "second", values: columns.second }, "finite");
  const belonging = clusters === undefined ? {} : { clusters };
  const first = rocArea({ values: columns.first, states, ...belonging }, { direction: directions[0], level });
  const second = rocArea(
    { values: columns.second, states, ...belonging },
    { direction: directions[1], level },
  );
  const pair = [
    placementsOf({ values: columns.first, states }, directions[0]),
    placementsOf({ values: columns.second, states }, directions[1]),
  ];
  const none = { standardError: null, lower: null, upper: null, z: null, p: null, level, covariance: null };
  if (first.area === null || second.area === null)
    return { ...none, first, second, difference: null, reason: first.reason };
  const difference = first.area - second.area;
  const groups = checkedClusters(clusters, columns.first);
  const [one, two] = pair as [Placements, Placements];
  const covariance = areaCovariance([one, two], groups);
  if (covariance === null) return { ...none, first, second, difference, reason: "too-few-rows" };
  const own = [areaCovariance([one, one], groups), areaCovariance([two, two], groups)] as [number, number];
  const variance = own[0] + own[1] - 2 * covariance;
  // what is left of two equal variances is rounding
  const standardError = variance <= 1e-14 * (own[0] + own[1]) ? 0 : Math.sqrt(variance);
  return { ...differenceFrom({ difference, standardError }, { level }), first, second, covariance };
}

/** @throws ArgumentError naming the index of a cluster at fault */
function checkedClusters(clusters: ArrayLike<number> | undefined, values: ArrayLike<number>) {
  if (clusters === undefined) return null;
  checkSameLength({ name: "clusters", values: clusters }, { name: "values", values });
  checkColumn({ name: "clusters", values: clusters }, "code");
  return clusterIndex({ times: clusters, clusters });
}
