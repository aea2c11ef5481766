import { noncentralTTails } from "../continuous/noncentral-t.js";
import { ArgumentError } from "../shared/arguments.js";
import { tCritical } from "../shared/distributions.js";
import { confidenceLevel, needed, number, type OptionsOf, readOptions } from "../shared/options.js";
import { rootBetween } from "../shared/root.js";
import { bothQuantiles, type GroupSizes, plannedOptions, sizesOf } from "./planned.js";

const meansOptions = {
  /** Difference of the two means that should be found; not 0. */
  difference: needed(number("finite")),
  /** Standard deviation within a group. */
  deviation: needed(number("positive")),
  ...plannedOptions,
};
export interface SizeOfMeansOptions extends OptionsOf<typeof meansOptions> {}

const pairsOptions = {
  /** Mean change that should be found; not 0. */
  difference: meansOptions.difference,
  /** Standard deviation of the change from one reading of a finger to the next. */
  deviation: meansOptions.deviation,
  level: confidenceLevel,
  power: plannedOptions.power,
};
export interface SizeOfPairsOptions extends OptionsOf<typeof pairsOptions> {}

function checkDifference(difference: number): void {
  if (difference !== 0) return;
  throw new ArgumentError({
    argument: "difference",
    index: null,
    expected: "another number than 0, which is no difference",
    found: difference,
  });
}

/** Power of a t-test, both tails counted. */
function powerOfT(shift: number, df: number, level: number): number {
  const critical = tCritical(level, df);
  return noncentralTTails(critical, { df, shift }).upper + noncentralTTails(-critical, { df, shift }).lower;
}

/** Largest group that is looked for. */
const mostPeople = 1e7;

/** The size at which the power is reached; the smallest there can be, where that has it already. */
function sizeAt(power: number, powerOf: (size: number) => number, least: number): number {
  if (powerOf(least) >= power) return least;
  return Math.exp(
    rootBetween((log) => powerOf(Math.exp(log)) - power, [Math.log(least), Math.log(mostPeople)]),
  );
}

/** @throws ArgumentError where so small a difference would take more people than is looked for */
function checkFound(standardised: number, sure: { readonly level: number; readonly power: number }): void {
  if ((bothQuantiles(sure) / standardised) ** 2 < mostPeople / 10) return;
  throw new ArgumentError({
    argument: "difference",
    index: null,
    expected: "not so small beside the deviation that a million people do not find it",
    found: `${Math.abs(standardised)} deviations`,
  });
}

/**
 * People in each of two groups whose means should be told apart by a t-test: distances, changes of distances, reading errors.
 *
 * By the exact power: Student's t with n1 + n2 - 2 degrees of freedom, shifted by difference / (deviation sqrt(1 / n1 + 1 / n2)), both tails.
 * With the baseline held equal, deviation is that of the follow-up times sqrt(1 - r^2), r their correlation.
 *
 * @returns sizes that are not rounded
 * @throws ArgumentError naming the option at fault
 * @source Cohen 1988, Statistical Power Analysis for the Behavioral Sciences; baseline: Borm, Fransen & Lemmens 2007, J Clin Epidemiol 60:1234
 */
export function sizeOfMeans(options: SizeOfMeansOptions): GroupSizes {
  const { difference, deviation, level, power, ratio } = readOptions(meansOptions, options);
  checkDifference(difference);
  const standardised = Math.abs(difference) / deviation;
  checkFound(standardised, { level, power });
  const powerOf = (first: number) =>
    powerOfT(standardised * Math.sqrt((first * ratio) / (1 + ratio)), first * (1 + ratio) - 2, level);
  return sizesOf(sizeAt(power, powerOf, Math.max(1, 3 / (1 + ratio))), ratio);
}

/**
 * Pairs of readings with which a mean change is told from none by a paired t-test; by the exact power, both tails.
 *
 * @returns a number of pairs that is not rounded
 * @throws ArgumentError naming the option at fault
 * @source Cohen 1988, Statistical Power Analysis for the Behavioral Sciences
 */
export function sizeOfPairs(options: SizeOfPairsOptions): number {
  const { difference, deviation, level, power } = readOptions(pairsOptions, options);
  checkDifference(difference);
  const standardised = Math.abs(difference) / deviation;
  checkFound(standardised, { level, power });
  return sizeAt(power, (pairs) => powerOfT(standardised * Math.sqrt(pairs), pairs - 1, level), 2);
}

const differenceOptions = {
  ...meansOptions,
  /** Standard deviation of one person of the first group: of a restricted mean, its standard error times the root of the number of people. */
  deviation: meansOptions.deviation,
  /** Of the second group; left out: that of the first. */
  otherDeviation: number("positive"),
};
export interface SizeOfDifferenceOptions extends OptionsOf<typeof differenceOptions> {}

/**
 * People in each of two groups whose restricted mean times (or any figures with normal errors) should be told apart.
 *
 * n of the first = (z_level + z_power)^2 (s1^2 + s2^2 / r) / difference^2.
 *
 * @returns sizes that are not rounded
 * @throws ArgumentError naming the option at fault
 * @source Royston & Parmar 2013, BMC Med Res Methodol 13:152
 */
export function sizeOfDifference(options: SizeOfDifferenceOptions): GroupSizes {
  const {
    difference,
    deviation,
    otherDeviation = deviation,
    ratio,
    ...sure
  } = readOptions(differenceOptions, options);
  checkDifference(difference);
  const variance = deviation ** 2 + otherDeviation ** 2 / ratio;
  return sizesOf((bothQuantiles(sure) / difference) ** 2 * variance, ratio);
}
