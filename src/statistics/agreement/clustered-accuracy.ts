import { type ClusteredShare, clusteredShare } from "../proportions/clustered-share.js";
import { checkColumn, checkSameLength } from "../shared/arguments.js";
import {
  checkColumnNames,
  levelOption,
  type NamesOf,
  type OptionsOf,
  readOptions,
} from "../shared/options.js";
import {
  type AccuracyCounts,
  accuracyAt,
  cutOptions,
  isPositiveWhen,
  type ReadingsAndStates,
} from "./test-accuracy.js";

/** Readings with the reference standard's answer, of which several belong together (whole numbers): fingers of one person. */
export interface ClusteredReadings extends ReadingsAndStates {
  readonly clusters: ArrayLike<number>;
}

export const clusteredReadingsNames: NamesOf<ClusteredReadings> = {
  clusters: true,
  values: true,
  states: true,
};

export const clusteredAccuracyOptions = { ...levelOption, ...cutOptions };

export interface ClusteredAccuracyOptions extends OptionsOf<typeof clusteredAccuracyOptions> {}

export interface ClusteredAccuracy {
  readonly counts: AccuracyCounts;
  readonly sensitivity: ClusteredShare;
  readonly specificity: ClusteredShare;
  /** Of this sample, whose share of affected need not be that of anybody's practice. */
  readonly positivePredictive: ClusteredShare;
  readonly negativePredictive: ClusteredShare;
  readonly accuracy: ClusteredShare;
  readonly prevalence: ClusteredShare;
  readonly level: number;
}

/**
 * Sensitivity, specificity, predictive values and accuracy of readings cut at a threshold, where several readings belong together: the
 * same shares as accuracyAt, each with an interval over the clusters that have rows in it, by clusteredShare.
 *
 * @param columns values, states and clusters, equally long
 * @param options threshold and positiveWhen as for accuracyAt
 * @throws ArgumentError naming the column and index of a value at fault
 * @source Rao & Scott 1992, Biometrics 48:577
 */
export function clusteredAccuracy(
  columns: ClusteredReadings,
  options: ClusteredAccuracyOptions,
): ClusteredAccuracy {
  checkColumnNames(clusteredReadingsNames, { columns });
  const { level, threshold, positiveWhen } = readOptions(clusteredAccuracyOptions, options);
  const { counts } = accuracyAt(
    { values: columns.values, states: columns.states },
    { threshold, positiveWhen, level },
  );
  const clusters = { name: "clusters", values: columns.clusters };
  checkSameLength(clusters, { name: "values", values: columns.values });
  checkColumn(clusters, "code");
  const test = Array.from(columns.values, (value) =>
    isPositiveWhen(positiveWhen, { value, threshold }) ? 1 : 0,
  );
  const state = Array.from(columns.states);
  const shareOf = (counting: (row: number) => boolean, within: (row: number) => boolean): ClusteredShare => {
    const rows = test.flatMap((_, row) => (within(row) ? [row] : []));
    return clusteredShare(
      {
        hits: rows.map((row) => (counting(row) ? 1 : 0)),
        clusters: rows.map((row) => columns.clusters[row]!),
      },
      { level },
    );
  };
  const positive = (row: number) => test[row] === 1;
  const negative = (row: number) => test[row] === 0;
  const affected = (row: number) => state[row] === 1;
  const healthy = (row: number) => state[row] === 0;
  return {
    counts,
    sensitivity: shareOf(positive, affected),
    specificity: shareOf(negative, healthy),
    positivePredictive: shareOf(affected, positive),
    negativePredictive: shareOf(healthy, negative),
    accuracy: shareOf(
      (row) => test[row] === state[row],
      () => true,
    ),
    prevalence: shareOf(affected, () => true),
    level,
  };
}
