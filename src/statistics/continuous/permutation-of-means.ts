import { ArgumentError } from "../shared/arguments.js";
import type { Reason } from "../shared/figure.js";
import { checkColumnNames, number, type OptionsOf, oneOf, readOptions } from "../shared/options.js";
import { permutationTest } from "../shared/permutation.js";
import { momentsOf } from "./describe.js";
import { checkTwoSamples, type TwoSamples, twoSamplesNames } from "./two-samples.js";

export const permutationOfMeansOptions = {
  /** Default "automatic": every choice while there are at most 200,000, random ones beyond. */
  method: oneOf(["automatic", "exact", "random"], "automatic"),
  /** Whole number; needed for random choices. */
  seed: number("code"),
  /** Random choices. Default 9,999. */
  draws: number("positive count", 9999),
};

export interface PermutationOfMeansOptions extends OptionsOf<typeof permutationOfMeansOptions> {}

export interface PermutationOfMeans {
  /** Mean of a less mean of b. */
  readonly difference: number | null;
  /** Shares of the choices with a difference at most, at least, and at least as far from 0 as the observed one. */
  readonly less: number | null;
  readonly greater: number | null;
  readonly p: number | null;
  readonly method: "exact" | "random" | null;
  /** All choices, or those drawn. */
  readonly choices: number;
  /** Standard error of p from drawing; 0 when exact. */
  readonly monteCarloError: number | null;
  readonly reason: Reason | null;
}

const readyChoices = 200_000;
const mostChoices = 50_000_000;

/**
 * Permutation test of the difference of two independent means: the shares of all choices of n_a values, or of random ones, whose
 * difference is as extreme as the observed one.
 *
 * Exact: every choice once. Random: (1 + as extreme) / (1 + draws), choice r from stream r of the seed. A difference equal but for
 * rounding is equal.
 *
 * @returns nulls with `no-rows` where a side is empty
 * @throws ArgumentError naming the side and index of a value that is not finite, a seed that is missing where choices are drawn, or
 *   "exact" with more than fifty million choices
 * @source Fisher 1935, The Design of Experiments; Pitman 1937, J R Stat Soc Suppl 4:119
 * @example
 * permutationOfMeans({ a: [1, 2], b: [3, 4] }).p // => 1/3
 */
export function permutationOfMeans(
  samples: TwoSamples,
  options: PermutationOfMeansOptions = {},
): PermutationOfMeans {
  checkColumnNames(twoSamplesNames, { samples });
  checkTwoSamples(samples);
  const { a, b } = samples;
  const { method, seed, draws } = readOptions(permutationOfMeansOptions, options);
  if (a.length === 0 || b.length === 0) {
    const none = { difference: null, less: null, greater: null, p: null, method: null };
    return { ...none, choices: 0, monteCarloError: null, reason: "no-rows" };
  }
  const difference = momentsOf(a).mean - momentsOf(b).mean;
  const choices = numberOfChoices(a.length + b.length, Math.min(a.length, b.length));
  const every = method === "exact" || (method === "automatic" && choices <= readyChoices);
  if (every && choices > mostChoices)
    throw new ArgumentError({
      argument: "method",
      index: null,
      expected: `"random" for ${choices} choices`,
      found: method,
    });
  const found = every ? overEveryChoice(samples) : overRandomChoices(samples, { seed, draws });
  return { difference, ...found, method: every ? "exact" : "random", reason: null };
}

function numberOfChoices(n: number, size: number): number {
  let choices = 1;
  for (let i = 1; i <= size; i++) choices = (choices * (n - size + i)) / i;
  return Math.round(choices);
}

type Shares = Pick<PermutationOfMeans, "less" | "greater" | "p" | "choices" | "monteCarloError">;

/** All values less their mean, a first: the sum of those chosen is then 0 on average. */
function centred({ a, b }: TwoSamples): Float64Array {
  const all = Float64Array.from([...Array.from(a), ...Array.from(b)]);
  const { mean } = momentsOf(all);
  return all.map((value) => value - mean);
}

/** Rounding of a sum of so many values. */
const slackOf = (values: Float64Array): number =>
  1e-12 * values.reduce((sum, value) => sum + Math.abs(value), 0);

function overEveryChoice({ a, b }: TwoSamples): Shares {
  const swap = b.length < a.length;
  const [few, many] = swap ? [b, a] : [a, b];
  const values = centred({ a: few, b: many });
  const size = few.length;
  const observed = values.subarray(0, size).reduce((sum, value) => sum + value, 0);
  const slack = slackOf(values);
  const hits = { less: 0, greater: 0, twoSided: 0, all: 0 };
  const choose = (from: number, left: number, sum: number): void => {
    if (left === 0) {
      hits.all++;
      if (sum <= observed + slack) hits.less++;
      if (sum >= observed - slack) hits.greater++;
      if (Math.abs(sum) >= Math.abs(observed) - slack) hits.twoSided++;
      return;
    }
    for (let i = from; i <= values.length - left; i++) choose(i + 1, left - 1, sum + values[i]!);
  };
  choose(0, size, 0);
  const [less, greater] = swap ? [hits.greater, hits.less] : [hits.less, hits.greater];
  return {
    less: less / hits.all,
    greater: greater / hits.all,
    p: hits.twoSided / hits.all,
    choices: hits.all,
    monteCarloError: 0,
  };
}

function overRandomChoices(
  samples: TwoSamples,
  { seed, draws }: { readonly seed: number | undefined; readonly draws: number },
): Shares {
  if (seed === undefined)
    throw new ArgumentError({ argument: "seed", index: null, expected: "a whole number", found: seed });
  const values = centred(samples);
  const size = samples.a.length;
  const slack = slackOf(values);
  const found = permutationTest(
    {
      labels: values,
      statistic: (labels) => {
        let sum = 0;
        for (let i = 0; i < size; i++) sum += labels[i]!;
        // a sum of 0 but for rounding is 0
        return Math.abs(sum) <= slack ? 0 : sum;
      },
    },
    { seed, draws },
  );
  return {
    less: found.less,
    greater: found.greater,
    p: found.twoSided,
    choices: found.draws,
    monteCarloError: found.monteCarloError,
  };
}
