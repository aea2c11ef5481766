import { momentsOf } from "../continuous/describe.js";
import { noncentralTQuantile } from "../continuous/noncentral-t.js";
import { spreadIsRounding } from "../continuous/spread-is-rounding.js";
import { normalCritical, tCritical } from "../shared/distributions.js";
import type { Reason } from "../shared/figure.js";
import type { Read } from "../shared/options.js";
import { checkColumnNames, confidenceLevel, number, type OptionsOf, readOptions } from "../shared/options.js";
import { checkPairs, differencesOf, type PairedReadings, pairedReadingsNames } from "./paired-readings.js";

export interface LimitInterval {
  readonly lower: number;
  readonly upper: number;
}

/** A limit of agreement with its three intervals. */
export interface LimitOfAgreement {
  readonly estimate: number;
  /** Bias -+ t sqrt(3 s^2 / n), the paper of 1986: takes the multiplier's square, 3.84, over 2 as 2. */
  readonly simple: (LimitInterval & { readonly standardError: number }) | null;
  /** Bias -+ t s sqrt(1/n + m^2 / (2 (n - 1))), m the multiplier. */
  readonly approximate: (LimitInterval & { readonly standardError: number }) | null;
  /** By the non-central t distribution: right at any n when differences are normal, and not symmetric. */
  readonly exact: LimitInterval | null;
}

export interface LimitsOfAgreement {
  readonly n: number;
  /** Mean of first - second. */
  readonly bias: number | null;
  readonly biasLower: number | null;
  readonly biasUpper: number | null;
  /** Of the differences, n - 1. */
  readonly standardDeviation: number | null;
  readonly multiplier: number;
  readonly lower: LimitOfAgreement | null;
  readonly upper: LimitOfAgreement | null;
  readonly level: number;
  readonly reason: Reason | null;
}

export const limitsOptions = {
  /** Of the intervals. Default 0.95. */
  level: confidenceLevel,
  /** Standard deviations on either side of the bias. Default 1.96 (to full precision), for 95 % of the differences. */
  multiplier: number("positive", normalCritical(0.95)),
};

export interface LimitsOptions extends OptionsOf<typeof limitsOptions> {}

/**
 * Limits of agreement of two methods read once each on every subject: bias -+ 1.96 s of the differences first - second.
 *
 * About 95 % of differences lie between them if they are normal and neither bias nor spread changes with size
 * (`proportionalBias`, `limitsByMagnitude`). Whether the limits are narrow enough is a clinical question, not answered here.
 * Each limit has three intervals, see `LimitOfAgreement`; `exact` is the one to print. For means of replicates pass the means:
 * the limits are then those of such means; for single readings see `limitsOfReplicates`.
 *
 * @param columns first and second, equally long, row by row the same subject; in the unit of the readings
 * @returns nulls with `no-rows`; the bias alone with `too-few-rows` (one pair); limits at the bias without intervals with
 *   `no-variance` where all differences are equal (to rounding)
 * @throws ArgumentError naming the column and index of a value at fault, or an option out of range
 * @source Bland & Altman 1986, Lancet 1:307; Bland & Altman 1999, Stat Methods Med Res 8:135; exact: Carkeet 2015, Optom Vis Sci 92:e71
 * @example
 * limitsOfAgreement({ first: [1, 4, 6], second: [1, 3, 4] }, { multiplier: 2 }).upper?.estimate // => 3
 */
export function limitsOfAgreement(columns: PairedReadings, options: LimitsOptions = {}): LimitsOfAgreement {
  checkColumnNames(pairedReadingsNames, { columns });
  const { level, multiplier } = readOptions(limitsOptions, options);
  checkPairs(columns);
  const n = columns.first.length;
  const common = { n, multiplier, level };
  const noInterval = { biasLower: null, biasUpper: null };
  if (n === 0)
    return {
      ...common,
      ...noInterval,
      bias: null,
      standardDeviation: null,
      lower: null,
      upper: null,
      reason: "no-rows",
    };
  const { mean: bias, variance } = momentsOf(differencesOf(columns));
  if (variance === null)
    return {
      ...common,
      ...noInterval,
      bias,
      standardDeviation: null,
      lower: null,
      upper: null,
      reason: "too-few-rows",
    };
  const s = Math.sqrt(variance);
  if (spreadIsRounding(s, columns)) {
    const limit = { estimate: bias, simple: null, approximate: null, exact: null };
    return {
      ...common,
      ...noInterval,
      bias,
      standardDeviation: 0,
      lower: limit,
      upper: limit,
      reason: "no-variance",
    };
  }
  const half = (tCritical(level, n - 1) * s) / Math.sqrt(n);
  return {
    ...common,
    bias,
    biasLower: bias - half,
    biasUpper: bias + half,
    standardDeviation: s,
    ...bothLimits({ n, bias, s }, { level, multiplier }),
    reason: null,
  };
}

function bothLimits(
  { n, bias, s }: { readonly n: number; readonly bias: number; readonly s: number },
  { level, multiplier }: Read<typeof limitsOptions>,
): { lower: LimitOfAgreement; upper: LimitOfAgreement } {
  const t = tCritical(level, n - 1);
  const around = (estimate: number, standardError: number) => ({
    standardError,
    lower: estimate - t * standardError,
    upper: estimate + t * standardError,
  });
  const distribution = { df: n - 1, shift: multiplier * Math.sqrt(n) };
  const near = (noncentralTQuantile((1 - level) / 2, distribution) * s) / Math.sqrt(n);
  const far = (noncentralTQuantile((1 + level) / 2, distribution) * s) / Math.sqrt(n);
  const limit = (estimate: number, exact: LimitInterval): LimitOfAgreement => ({
    estimate,
    simple: around(estimate, s * Math.sqrt(3 / n)),
    approximate: around(estimate, s * Math.sqrt(1 / n + multiplier ** 2 / (2 * (n - 1)))),
    exact,
  });
  return {
    lower: limit(bias - multiplier * s, { lower: bias - far, upper: bias - near }),
    upper: limit(bias + multiplier * s, { lower: bias + near, upper: bias + far }),
  };
}
