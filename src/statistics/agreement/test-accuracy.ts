import { type ProportionInterval, wilson } from "../continuous/wilson.js";
import { checkColumn, checkNumber, checkSameLength } from "../shared/arguments.js";
import { normalCritical } from "../shared/distributions.js";
import type { Reason } from "../shared/figure.js";
import {
  checkColumnNames,
  confidenceLevel,
  type NamesOf,
  needed,
  number,
  type OptionsOf,
  oneOf,
  readOptions,
} from "../shared/options.js";

/** Result of a test against a reference standard, as counts. */
export interface AccuracyCounts {
  readonly truePositive: number;
  readonly falsePositive: number;
  readonly falseNegative: number;
  readonly trueNegative: number;
}

export const accuracyCountsNames: NamesOf<AccuracyCounts> = {
  truePositive: true,
  falsePositive: true,
  falseNegative: true,
  trueNegative: true,
};

export interface LikelihoodRatio {
  readonly estimate: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  /** Of the logarithm. */
  readonly standardErrorOfLog: number | null;
  readonly reason: Reason | null;
}

export interface TestAccuracy {
  readonly counts: AccuracyCounts;
  readonly sensitivity: ProportionInterval;
  readonly specificity: ProportionInterval;
  /** Of this sample, whose share of affected need not be that of anybody's practice. */
  readonly positivePredictive: ProportionInterval;
  readonly negativePredictive: ProportionInterval;
  readonly accuracy: ProportionInterval;
  readonly prevalence: ProportionInterval;
  readonly positiveRatio: LikelihoodRatio;
  readonly negativeRatio: LikelihoodRatio;
  /** Predictive values where the share of affected is the one asked for, with limits from those of the ratios; null if none was. */
  readonly atPrevalence: {
    readonly prevalence: number;
    readonly positivePredictive: Omit<LikelihoodRatio, "standardErrorOfLog">;
    readonly negativePredictive: Omit<LikelihoodRatio, "standardErrorOfLog">;
  } | null;
  readonly level: number;
}

export const accuracyOptions = {
  /** Default 0.95. */
  level: confidenceLevel,
  /** Share of affected, between 0 and 1, for which predictive values are wanted. */
  prevalence: number("open share"),
};

export interface AccuracyOptions extends OptionsOf<typeof accuracyOptions> {}

/**
 * Sensitivity, specificity, predictive values and likelihood ratios of a test, from counts.
 *
 * Shares with Wilson's interval. LR+ = sensitivity / (1 - specificity), LR- = (1 - sensitivity) / specificity, intervals on the log
 * scale with Var log (a/m) / (b/n) = 1/a - 1/m + 1/b - 1/n. At another prevalence by Bayes' rule on the odds. Every row counts as
 * independent: for several fingers a person the intervals are too narrow, and clusteredAccuracy is the one to use.
 *
 * @param counts whole numbers, 0 or more
 * @returns shares without rows null with `no-rows`; a ratio whose divisor is 0 null (`not-positive`), one that is 0 without interval
 * @throws ArgumentError naming the count or option at fault
 * @source Wilson 1927, J Am Stat Assoc 22:209; Simel, Samsa & Matchar 1991, J Clin Epidemiol 44:763
 * @example
 * accuracyOfCounts({ truePositive: 9, falsePositive: 2, falseNegative: 1, trueNegative: 8 }).positiveRatio.estimate // => 4.5
 */
export function accuracyOfCounts(counts: AccuracyCounts, options: AccuracyOptions = {}): TestAccuracy {
  checkColumnNames(accuracyCountsNames, { counts });
  const { level, prevalence } = readOptions(accuracyOptions, options);
  for (const name of ["truePositive", "falsePositive", "falseNegative", "trueNegative"] as const)
    checkNumber({ name, value: counts[name] }, "count");
  const { truePositive: tp, falsePositive: fp, falseNegative: fn, trueNegative: tn } = counts;
  const affected = tp + fn;
  const healthy = fp + tn;
  const positiveRatio = ratioOfShares([tp, affected], [fp, healthy], level);
  const negativeRatio = ratioOfShares([fn, affected], [tn, healthy], level);
  return {
    counts,
    sensitivity: wilson(tp, affected, { level }),
    specificity: wilson(tn, healthy, { level }),
    positivePredictive: wilson(tp, tp + fp, { level }),
    negativePredictive: wilson(tn, tn + fn, { level }),
    accuracy: wilson(tp + tn, affected + healthy, { level }),
    prevalence: wilson(affected, affected + healthy, { level }),
    positiveRatio,
    negativeRatio,
    atPrevalence:
      prevalence === undefined
        ? null
        : {
            prevalence,
            positivePredictive: afterTest(
              positiveRatio,
              (ratio) => (prevalence * ratio) / (1 - prevalence + prevalence * ratio),
            ),
            negativePredictive: afterTest(
              negativeRatio,
              (ratio) => (1 - prevalence) / (1 - prevalence + prevalence * ratio),
            ),
          },
    level,
  };
}

function ratioOfShares(
  [a, m]: readonly [number, number],
  [b, n]: readonly [number, number],
  level: number,
): LikelihoodRatio {
  const z = normalCritical(level);
  const none = { estimate: null, lower: null, upper: null, standardErrorOfLog: null };
  if (m === 0 || n === 0) return { ...none, reason: "no-rows" };
  if (b === 0) return { ...none, reason: "not-positive" };
  const estimate = a / m / (b / n);
  if (a === 0) return { ...none, estimate, reason: "not-positive" };
  const error = Math.sqrt(Math.max(0, 1 / a - 1 / m + (1 / b - 1 / n)));
  if (error === 0) return { ...none, estimate, reason: "no-variance" };
  return {
    estimate,
    lower: estimate * Math.exp(-z * error),
    upper: estimate * Math.exp(z * error),
    standardErrorOfLog: error,
    reason: null,
  };
}

/** Limits change places where the predictive value falls with the ratio. */
function afterTest(
  { estimate, lower, upper, reason }: LikelihoodRatio,
  predictive: (ratio: number) => number,
): Omit<LikelihoodRatio, "standardErrorOfLog"> {
  const value = estimate === null ? null : predictive(estimate);
  if (lower === null || upper === null) return { estimate: value, lower: null, upper: null, reason };
  const ends = [predictive(lower), predictive(upper)] as const;
  return { estimate: value, lower: Math.min(...ends), upper: Math.max(...ends), reason };
}

/** A reading and the reference standard's answer, row by row. */
export interface ReadingsAndStates {
  readonly values: ArrayLike<number>;
  /** 1 affected, 0 not. */
  readonly states: ArrayLike<number>;
}

export const readingsAndStatesNames: NamesOf<ReadingsAndStates> = { values: true, states: true };

/** Which readings count as a positive test. */
export const positiveSides = ["at or above", "above", "at or below", "below"] as const;
export type PositiveWhen = (typeof positiveSides)[number];

const positive: Record<PositiveWhen, (value: number, threshold: number) => boolean> = {
  "at or above": (value, threshold) => value >= threshold,
  above: (value, threshold) => value > threshold,
  "at or below": (value, threshold) => value <= threshold,
  below: (value, threshold) => value < threshold,
};

/** Whether a reading counts as a positive test. */
export const isPositiveWhen = (
  when: PositiveWhen,
  { value, threshold }: { readonly value: number; readonly threshold: number },
): boolean => positive[when](value, threshold);

export const cutOptions = {
  /** In the unit of the values. */
  threshold: needed(number("finite")),
  /** Default "at or above". "Above 2.0" and "at or above 2.0" differ for readings rounded to 0.5. */
  positiveWhen: oneOf(positiveSides, "at or above"),
};

export const thresholdOptions = { ...accuracyOptions, ...cutOptions };

export interface ThresholdOptions extends OptionsOf<typeof thresholdOptions> {}

/**
 * The same for readings cut at a threshold.
 *
 * @param columns values and states, equally long
 * @throws ArgumentError naming the column and index of a value at fault
 */
export function accuracyAt(columns: ReadingsAndStates, options: ThresholdOptions): TestAccuracy {
  checkColumnNames(readingsAndStatesNames, { columns });
  const { threshold, positiveWhen, ...ofCounts } = readOptions(thresholdOptions, options);
  checkReadings(columns);
  const cells = { truePositive: 0, falsePositive: 0, falseNegative: 0, trueNegative: 0 };
  for (let row = 0; row < columns.values.length; row++) {
    const affected = columns.states[row] === 1;
    if (isPositiveWhen(positiveWhen, { value: columns.values[row]!, threshold }))
      cells[affected ? "truePositive" : "falsePositive"]++;
    else cells[affected ? "falseNegative" : "trueNegative"]++;
  }
  return accuracyOfCounts(cells, ofCounts);
}

/** @throws ArgumentError naming the column and index of a value at fault */
export function checkReadings({ values, states }: ReadingsAndStates): void {
  const first = { name: "values", values };
  checkColumn(first, "finite");
  checkSameLength({ name: "states", values: states }, first);
  checkColumn({ name: "states", values: states }, "zero or one");
}
