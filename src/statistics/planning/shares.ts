import { ArgumentError } from "../shared/arguments.js";
import { normalCritical, normalLowerTail, normalQuantile } from "../shared/distributions.js";
import { confidenceLevel, needed, number, type OptionsOf, oneOf, readOptions } from "../shared/options.js";
import { type GroupSizes, plannedOptions, sizesOf } from "./planned.js";

/** `pooled`: the test takes one variance of both groups; `unpooled`: each group its own, as an interval does. */
export const shareFormulas = ["pooled", "unpooled"] as const;

const twoShares = {
  /** Share of the first group by the landmark. */
  one: needed(number("open share")),
  /** Share of the second. */
  other: needed(number("open share")),
  /** Default "pooled". */
  formula: oneOf(shareFormulas, "pooled"),
};

const sizeOfSharesOptions = { ...twoShares, ...plannedOptions };
export interface SizeOfSharesOptions extends OptionsOf<typeof sizeOfSharesOptions> {}

/** Roots of the variances of the difference of two shares for one in the first group: where there is none, and as they are. */
function spreads({
  one,
  other,
  ratio,
  formula,
}: {
  one: number;
  other: number;
  ratio: number;
  formula: string;
}) {
  const together = (one + ratio * other) / (1 + ratio);
  const own = Math.sqrt(one * (1 - one) + (other * (1 - other)) / ratio);
  return { none: formula === "pooled" ? Math.sqrt((1 + 1 / ratio) * together * (1 - together)) : own, own };
}

/**
 * People in each of two groups whose shares by a landmark should be told apart, nobody lost before it.
 *
 * n of the first = (z_level sqrt((1 + 1/r) p (1 - p)) + z_power sqrt(a (1 - a) + b (1 - b) / r))^2 / (a - b)^2, p the share of both together,
 * r the ratio of the sizes; `unpooled` takes the second root in both places. No correction for continuity.
 *
 * @returns sizes that are not rounded
 * @throws ArgumentError naming the option at fault; `other` where it equals `one`
 * @source Fleiss, Tytun & Ury 1980, Biometrics 36:343
 * @example
 * sizeOfShares({ one: 0.5, other: 0.75, power: 0.9 }).first // => 76.70692845177743
 */
export function sizeOfShares(options: SizeOfSharesOptions): GroupSizes {
  const { one, other, formula, level, power, ratio } = readOptions(sizeOfSharesOptions, options);
  if (one === other)
    throw new ArgumentError({
      argument: "other",
      index: null,
      expected: `another share than that of the first group (${one})`,
      found: other,
    });
  const { none, own } = spreads({ one, other, ratio, formula });
  const root = (normalCritical(level) * none + normalQuantile(power) * own) / (one - other);
  return sizesOf(root * root, ratio);
}

const powerOfSharesOptions = {
  ...twoShares,
  /** People of the first group. */
  first: needed(number("positive")),
  /** People of the second group. */
  second: needed(number("positive")),
  /** Default 0.95. */
  level: confidenceLevel,
};
export interface PowerOfSharesOptions extends OptionsOf<typeof powerOfSharesOptions> {}

/**
 * In what part of the studies of these sizes the test tells two shares apart: sizeOfShares turned round, the far tail left out.
 *
 * @throws ArgumentError naming the option at fault
 * @source Fleiss, Tytun & Ury 1980, Biometrics 36:343
 */
export function powerOfShares(options: PowerOfSharesOptions): number {
  const { one, other, formula, first, second, level } = readOptions(powerOfSharesOptions, options);
  const { none, own } = spreads({ one, other, ratio: second / first, formula });
  return normalLowerTail((Math.abs(one - other) * Math.sqrt(first) - normalCritical(level) * none) / own);
}
