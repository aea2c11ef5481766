import { normalLowerTail, normalUpperTail } from "../../shared/distributions.js";
import { rootBetween } from "../../shared/root.js";

/** What the sites say of their mean if the standard deviation between them is tau. */
export interface AtSpread {
  readonly mean: number;
  /** Squared error of the mean. */
  readonly variance: number;
  /** Of tau, the mean integrated out. */
  readonly logLikelihood: number;
}

/** A normal distribution with its part in a mixture of them. */
export interface MixedNormal {
  readonly mean: number;
  readonly variance: number;
  /** Parts have the sum 1. */
  readonly part: number;
}

interface OverSpreads {
  /** Error variances of the sites, above 0. */
  readonly variances: Float64Array;
  /** The largest spread that can be told from a larger one. */
  readonly largest: number;
}

/** exp(-30) of the highest is nothing. */
const nothing = -30;
/** Tau ten powers of e below the smallest error is none. */
const reach = 10;
/** The terms are analytic within pi / 4 of the real line of log tau, so equal steps of 0.2 are right to rounding; the likelihood of many sites is narrow. */
const stepFor = (sites: number): number => Math.min(0.2, 0.6 / Math.sqrt(2 * (sites - 1)));

/** Where the spread has an end, the first terms count so much: Gregory's end correction of a sum at equal steps. */
const atEnd: readonly number[] = [3 / 8, 7 / 6, 23 / 24];

/** The reference density of log tau, from the information on it: it weighs spreads far below the errors, and far above, ever less. */
function logReference(tau: number, variances: Float64Array): number {
  let sum = 0;
  for (const variance of variances) sum += (tau / (variance + tau * tau)) ** 2;
  return Math.log(tau) + Math.log(sum) / 2;
}

/**
 * A further site's true answer as a mixture over the spreads that the sites allow: at each tau the normal distribution about the mean, of the
 * variance tau^2 + SE^2, with the likelihood of tau times its reference density as its part.
 *
 * The sum goes at equal steps of log tau back from its end, outwards from the highest, until nothing is left.
 *
 * @param at at a spread above 0
 */
export function mixedOverSpreads(
  at: (tau: number) => AtSpread,
  { variances, largest }: OverSpreads,
): readonly MixedNormal[] {
  const smallest = Math.sqrt(variances.reduce((least, next) => Math.min(least, next)));
  const ends = [Math.log(smallest) - reach, Math.log(largest)] as const;
  const partAt = (logTau: number) => {
    const tau = Math.exp(logTau);
    const { mean, variance, logLikelihood } = at(tau);
    return { mean, variance: variance + tau * tau, log: logLikelihood + logReference(tau, variances) };
  };
  const step = stepFor(variances.length);
  const start = highestFrom(ends, (logTau) => partAt(logTau).log);
  const first = Math.round((ends[1] - start) / step);
  const parts: (ReturnType<typeof partAt> & { readonly counts: number })[] = [];
  let highest = -Infinity;
  for (const side of [1, -1])
    for (let k = side === 1 ? first : first - 1; k >= 0 && ends[1] - k * step >= ends[0]; k += side) {
      const part = partAt(ends[1] - k * step);
      parts.push({ ...part, counts: atEnd[k] ?? 1 });
      highest = Math.max(highest, part.log);
      if (part.log < highest + nothing) break;
    }
  const weights = parts.map(({ log, counts }) => counts * Math.exp(log - highest));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  return parts.map(({ mean, variance }, i) => ({ mean, variance, part: weights[i]! / total }));
}

/** Where a function is highest, to one unit. */
function highestFrom([from, to]: readonly [number, number], of: (x: number) => number): number {
  let best = { x: from, value: -Infinity };
  for (let x = from; x <= to; x++) {
    const value = of(x);
    if (value > best.value) best = { x, value };
  }
  return best.x;
}

/** Between these lies the middle part, `level` of all, of a mixture. */
export function limitsOfMixture(
  parts: readonly MixedNormal[],
  level: number,
): { readonly lower: number; readonly upper: number } {
  const tail = (1 - level) / 2;
  const far = parts.map(({ mean, variance }) => [
    mean - 40 * Math.sqrt(variance),
    mean + 40 * Math.sqrt(variance),
  ]);
  const ends = [Math.min(...far.map(([low]) => low!)), Math.max(...far.map(([, high]) => high!))] as const;
  const over = (tailOf: (z: number) => number, x: number): number =>
    parts.reduce((sum, { mean, variance, part }) => sum + part * tailOf((x - mean) / Math.sqrt(variance)), 0);
  return {
    lower: rootBetween((x) => over(normalLowerTail, x) - tail, ends),
    upper: rootBetween((x) => tail - over(normalUpperTail, x), ends),
  };
}
