import { prepareResampling } from "../resampling/plan.js";
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
import type { Direction } from "./roc-placements.js";
import { directions } from "./roc-placements.js";
import { accuracyAt, checkReadings, type ReadingsAndStates, type TestAccuracy } from "./test-accuracy.js";
import { cutsOf } from "./threshold-cuts.js";
import { bestCut, replicateChoices } from "./threshold-replicates.js";

/** A share or an index as found where it was chosen, what choosing added on average, and the difference. */
export interface Corrected {
  readonly apparent: number;
  readonly optimism: number;
  readonly corrected: number;
  /** Monte Carlo error of the optimism; null for one replicate. */
  readonly monteCarloError: number | null;
}

export interface ThresholdChoice {
  readonly affected: number;
  readonly healthy: number;
  /** Positive is a reading at the threshold or beyond it. */
  readonly threshold: number | null;
  /** The neighbouring reading on the negative side: any threshold between the two parts these rows alike. Null if there is none. */
  readonly negativeNeighbour: number | null;
  /** Thresholds with the same index, the chosen one among them. */
  readonly tied: number;
  /** Of these rows, at the threshold chosen from them: too good. */
  readonly accuracy: TestAccuracy | null;
  /** Sensitivity + specificity - 1. */
  readonly youden: Corrected | null;
  readonly sensitivity: Corrected | null;
  readonly specificity: Corrected | null;
  /** Order statistics of the thresholds chosen in the replicates, rounded outwards. */
  readonly thresholdLower: number | null;
  readonly thresholdUpper: number | null;
  /** Share of replicates that chose the same threshold. */
  readonly sameThreshold: number | null;
  readonly replicates: number;
  /** Replicates without one of the states, possible with clusters only. */
  readonly replicatesLeftOut: number;
  readonly direction: Direction;
  readonly level: number;
  readonly reason: Reason | null;
}

export const thresholdChoiceOptions = {
  /** Whole number; replicate r uses stream r of it. */
  seed: needed(number("code")),
  /** Default 500. */
  replicates: number("count", 500),
  /** Does a high or a low reading speak for the affected state? Default "high". */
  direction: oneOf(directions, "high"),
  /** Of the interval of the threshold. Default 0.95. */
  level: confidenceLevel,
};

export interface ThresholdChoiceOptions extends OptionsOf<typeof thresholdChoiceOptions> {}

const chooseThresholdNames: NamesOf<Parameters<typeof chooseThreshold>[0]> = {
  values: true,
  states: true,
  clusters: true,
};

/**
 * The threshold with the largest sensitivity + specificity - 1, and how much of that is owed to having looked for it.
 *
 * Of tied thresholds the one with the highest sensitivity. Optimism: in each bootstrap replicate a threshold is chosen anew; its index
 * in the replicate less its index in the rows themselves, averaged. Rows are drawn within their state; persons, with all their rows, over
 * all. Readings are sorted once and replicates are counts.
 *
 * @param columns values, states (1 affected, 0 not), and whole-number clusters if rows belong together; equally long
 * @returns nulls with `no-rows`, or `one-group` where all rows have one state; without corrections for 0 replicates, or where every
 *   replicate lacked a state (`too-few-rows`)
 * @throws ArgumentError naming the column and index of a value at fault, or an option out of range
 * @source Youden 1950, Cancer 3:32; optimism: Efron 1983, J Am Stat Assoc 78:316; Harrell, Lee & Mark 1996, Stat Med 15:361
 * @example
 * chooseThreshold({ values: [1, 2, 3, 4], states: [0, 0, 1, 1] }, { seed: 1 }).threshold // => 3
 */
export function chooseThreshold(
  columns: ReadingsAndStates & { readonly clusters?: ArrayLike<number> },
  options: ThresholdChoiceOptions,
): ThresholdChoice {
  checkColumnNames(chooseThresholdNames, { columns });
  const { seed, replicates, direction, level } = readOptions(thresholdChoiceOptions, options);
  checkReadings(columns);
  const { values, states, clusters } = columns;
  const plan = prepareResampling({
    n: values.length,
    ...(clusters !== undefined ? { clusters } : { strata: states }),
  });
  const cuts = cutsOf(columns, direction);
  const { affected, healthy, thresholds } = cuts;
  const common = { affected, healthy, replicates, direction, level };
  if (affected === 0 || healthy === 0)
    return { ...common, ...nothing, reason: values.length === 0 ? "no-rows" : "one-group" };
  const own = bestCut(cuts, cuts)!;
  const accuracy = accuracyAt(
    { values, states },
    {
      threshold: thresholds[own.at]!,
      positiveWhen: direction === "high" ? "at or above" : "at or below",
      level,
    },
  );
  const found = {
    ...common,
    threshold: thresholds[own.at]!,
    negativeNeighbour: thresholds[own.at + 1] ?? null,
    tied: own.tied,
    accuracy,
  };
  const drawn = replicateChoices({ plan, cuts, states }, { seed, replicates });
  const used = drawn.chosen.length;
  const leftOut = replicates - used;
  if (used === 0)
    return {
      ...nothing,
      ...found,
      replicatesLeftOut: leftOut,
      reason: replicates > 0 ? "too-few-rows" : null,
    };
  const sensitivity = own.affected / affected;
  const specificity = 1 - own.healthy / healthy;
  const order = Int32Array.from(drawn.chosen).sort();
  const atShare = (rank: number): number => thresholds[order[Math.min(Math.max(rank, 1), used) - 1]!]!;
  const ends = [
    atShare(Math.floor(((1 - level) / 2) * (used + 1))),
    atShare(Math.ceil(((1 + level) / 2) * (used + 1))),
  ];
  return {
    ...found,
    youden: corrected(
      sensitivity + specificity - 1,
      drawn.sensitivity.map((one, i) => one + drawn.specificity[i]!),
    ),
    sensitivity: corrected(sensitivity, drawn.sensitivity),
    specificity: corrected(specificity, drawn.specificity),
    // resamples of one person are that person
    thresholdLower: plan.units < 2 ? null : Math.min(...ends),
    thresholdUpper: plan.units < 2 ? null : Math.max(...ends),
    sameThreshold: drawn.chosen.filter((at) => at === own.at).length / used,
    replicatesLeftOut: leftOut,
    reason: plan.units < 2 ? "too-few-rows" : null,
  };
}

const nothing = {
  threshold: null,
  negativeNeighbour: null,
  tied: 0,
  accuracy: null,
  youden: null,
  sensitivity: null,
  specificity: null,
  thresholdLower: null,
  thresholdUpper: null,
  sameThreshold: null,
  replicatesLeftOut: 0,
} as const;

function corrected(apparent: number, gains: readonly number[]): Corrected {
  const used = gains.length;
  const optimism = gains.reduce((sum, gain) => sum + gain / used, 0);
  const squares = gains.reduce((sum, gain) => sum + (gain - optimism) ** 2, 0);
  return {
    apparent,
    optimism,
    corrected: apparent - optimism,
    monteCarloError: used > 1 ? Math.sqrt(squares / (used - 1) / used) : null,
  };
}
