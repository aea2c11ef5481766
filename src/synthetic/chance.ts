import { normalQuantile } from "../statistics/shared/distributions.js";
import type { Generator } from "../statistics/shared/random.js";
import type { Delay } from "./scenario-grade.js";

/** True with that probability. */
export const happens = (probability: number, generator: Generator): boolean =>
  generator.uniform() < probability;

/** One of the terms, each as likely as its weight over the sum of the weights. */
export function choose<K extends string>(weights: Readonly<Record<K, number>>, generator: Generator): K {
  const terms = Object.keys(weights) as K[];
  return terms[
    chooseIndex(
      terms.map((term) => weights[term]),
      generator,
    )
  ]!;
}

/** The index of one of the weights, each as likely as its share; an index of weight 0 is never chosen. */
export function chooseIndex(weights: readonly number[], generator: Generator): number {
  let left = generator.uniform() * sumOf(weights);
  let chosen = 0;
  for (let i = 0; i < weights.length && left >= 0; i++) {
    const weight = weights[i]!;
    if (weight > 0) chosen = i;
    left -= weight;
  }
  return chosen;
}

function sumOf(weights: readonly number[]): number {
  let sum = 0;
  for (const weight of weights) sum += weight;
  return sum;
}

/** A normal draw within limits, by drawing again outside them. */
export function normalBetween(
  { mean, sd }: { readonly mean: number; readonly sd: number },
  {
    lowest,
    highest,
    generator,
  }: { readonly lowest: number; readonly highest: number; readonly generator: Generator },
): number {
  for (let attempt = 0; attempt < 100; attempt++) {
    const value = mean + sd * generator.normal();
    if (value >= lowest && value <= highest) return value;
  }
  return Math.min(highest, Math.max(lowest, mean));
}

/** A log-normal number of whole days, at most the longest. */
export const delayDays = ({ median_days, log_sd, longest_days }: Delay, generator: Generator): number =>
  Math.min(longest_days, Math.round(median_days * Math.exp(log_sd * generator.normal())));

/**
 * By how much a hazard is larger for somebody whose return is late: exp(b z), z being the normal score of the unit exponential that the time
 * to the return is made from, so that it has mean 0 and standard deviation 1 among the injuries of a grade.
 *
 * @param byCourse b
 */
export const timesByCourse = (byCourse: number, unitExponential: number): number =>
  byCourse === 0 ? 1 : Math.exp(-byCourse * normalQuantile(Math.exp(-unitExponential)));

/** Whole days, 1 or more, to an end that comes at a constant hazard a week; Infinity for hazard 0. */
export const daysAtRate = (perWeek: number, generator: Generator): number =>
  Math.max(1, Math.ceil((-Math.log(generator.uniform()) / perWeek) * 7));
