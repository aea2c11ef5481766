import { type ProportionInterval, wilson } from "../continuous/wilson.js";
import { ArgumentError, checkNumber } from "../shared/arguments.js";
import { betaQuantile, normalCritical } from "../shared/distributions.js";
import {
  checkColumnNames,
  confidenceLevel,
  type NamesOf,
  type OptionsOf,
  oneOf,
  readOptions,
} from "../shared/options.js";

/**
 * - "wilson": inverted score test
 * - "wilson-continuity": the same with continuity correction
 * - "exact": Clopper & Pearson's, never below its level and often far above it
 * - "agresti-coull": adds z^2/2 of each kind; its limits may lie outside 0 to 1
 * - "jeffreys": equal tails of a beta distribution with 1/2 added to each kind; 0 at no success, 1 at nothing but
 * - "wald": estimate -+ z standard errors; far too short for small numbers and shares near 0 or 1, for comparison only
 */
export const proportionMethods = [
  "wilson",
  "wilson-continuity",
  "exact",
  "agresti-coull",
  "jeffreys",
  "wald",
] as const;
export type ProportionMethod = (typeof proportionMethods)[number];

export interface ProportionCount {
  /** Whole number, 0 to n. */
  readonly successes: number;
  /** Whole number. */
  readonly n: number;
}

export const proportionCountNames: NamesOf<ProportionCount> = { successes: true, n: true };

export const proportionOptions = {
  /** Default "wilson". */
  method: oneOf(proportionMethods, "wilson"),
  /** Default 0.95. */
  level: confidenceLevel,
};

export interface ProportionOptions extends OptionsOf<typeof proportionOptions> {}

type Limits = [lower: number, upper: number];

/** @throws ArgumentError for counts that are not whole, or more successes than n */
export function checkCount({ successes, n }: ProportionCount): void {
  checkNumber({ name: "n", value: n }, "count");
  checkNumber({ name: "successes", value: successes }, "count");
  if (successes > n)
    throw new ArgumentError({
      argument: "successes",
      index: null,
      expected: `at most n, which is ${n}`,
      found: successes,
    });
}

function withContinuity({ successes, n }: ProportionCount, z: number): Limits {
  const p = successes / n;
  const middle = 2 * successes + z * z;
  const scale = 2 * (n + z * z);
  const root = (sign: 1 | -1): number =>
    z * Math.sqrt(Math.max(0, z * z + sign * 2 - 1 / n + 4 * p * (n - successes - sign)));
  return [
    successes === 0 ? 0 : Math.max(0, (middle - 1 - root(-1)) / scale),
    successes === n ? 1 : Math.min(1, (middle + 1 + root(1)) / scale),
  ];
}

/** Clopper & Pearson's limits; the quantiles of the side that is 0 or 1 are not defined. */
export function exactLimitsOfShare({ successes, n }: ProportionCount, level: number): Limits {
  const tail = (1 - level) / 2;
  return [
    successes === 0 ? 0 : betaQuantile(tail, { a: successes, b: n - successes + 1 }),
    successes === n ? 1 : betaQuantile(1 - tail, { a: successes + 1, b: n - successes }),
  ];
}

function jeffreys({ successes, n }: ProportionCount, level: number): Limits {
  const tail = (1 - level) / 2;
  const kinds = { a: successes + 0.5, b: n - successes + 0.5 };
  return [
    successes === 0 ? 0 : betaQuantile(tail, kinds),
    successes === n ? 1 : betaQuantile(1 - tail, kinds),
  ];
}

function around(middle: number, half: number): Limits {
  return [middle - half, middle + half];
}

function limitsOf(
  count: ProportionCount,
  settings: { readonly method: Exclude<ProportionMethod, "wilson">; readonly level: number },
): Limits {
  const { successes, n } = count;
  const z = normalCritical(settings.level);
  switch (settings.method) {
    case "wilson-continuity":
      return withContinuity(count, z);
    case "exact":
      return exactLimitsOfShare(count, settings.level);
    case "jeffreys":
      return jeffreys(count, settings.level);
    case "agresti-coull": {
      const total = n + z * z;
      const p = (successes + (z * z) / 2) / total;
      return around(p, z * Math.sqrt((p * (1 - p)) / total));
    }
    case "wald": {
      const p = successes / n;
      return around(p, z * Math.sqrt((p * (1 - p)) / n));
    }
  }
}

/**
 * A proportion with an interval by one of six methods.
 *
 * @param count successes of n, whole numbers up to 2^53
 * @returns nulls with `no-rows` for n = 0; no limits with `no-variance` for Wald's of no success or nothing but, which would be one point
 * @throws ArgumentError for counts that are not whole, more successes than n, or the level
 * @source Newcombe 1998, Stat Med 17:857 (Wilson's with and without continuity correction, Wald's); Clopper & Pearson 1934, Biometrika
 *   26:404; Agresti & Coull 1998, Am Stat 52:119; Brown, Cai & DasGupta 2001, Stat Sci 16:101 (Jeffreys)
 * @example
 * proportionInterval({ successes: 0, n: 20 }, { method: "exact" }).upper // => 0.1684334709830854
 */
export function proportionInterval(
  count: ProportionCount,
  options: ProportionOptions = {},
): ProportionInterval {
  checkColumnNames(proportionCountNames, { count });
  const { method, level } = readOptions(proportionOptions, options);
  checkCount(count);
  const { successes, n } = count;
  if (method === "wilson") return wilson(successes, n, { level });
  if (n === 0) return { estimate: null, lower: null, upper: null, level, reason: "no-rows" };
  const estimate = successes / n;
  if (method === "wald" && (successes === 0 || successes === n))
    return { estimate, lower: null, upper: null, level, reason: "no-variance" };
  const [lower, upper] = limitsOf(count, { method, level });
  return { estimate, lower, upper, level, reason: null };
}
