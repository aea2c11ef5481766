import { linearRegression } from "../regression/linear-regression.js";
import type { LinearFit } from "../regression/linear-types.js";
import { checkColumn } from "../shared/arguments.js";
import { normalCritical } from "../shared/distributions.js";
import type { Reason } from "../shared/figure.js";
import {
  checkColumnNames,
  confidenceLevel,
  type LevelOption,
  levelOption,
  list,
  needed,
  number,
  type OptionsOf,
  oneOf,
  readOptions,
} from "../shared/options.js";
import {
  checkPairs,
  differencesOf,
  magnitudesOf,
  type PairedReadings,
  pairedReadingsNames,
} from "./paired-readings.js";

/** Straight line of something on the magnitude, with the test of its slope. */
export interface MagnitudeLine {
  readonly intercept: number | null;
  readonly slope: number | null;
  readonly standardError: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  readonly t: number | null;
  readonly df: number;
  readonly p: number | null;
  readonly reason: Reason | null;
}

export interface ProportionalBias extends MagnitudeLine {
  readonly n: number;
  /** Of difference and magnitude; its test is that of the slope, and tests equal variances of the two methods. */
  readonly correlation: number | null;
  readonly level: number;
}

/**
 * Does the difference first - second grow or shrink with the size of what is measured? Least squares of the difference on the
 * mean of the two, with the t test of the slope.
 *
 * The correlation of difference and mean is 0 exactly when both methods have one variance; so a slope may also come from
 * unequal errors, without any proportional bias.
 *
 * @param columns first and second, equally long, row by row the same subject
 * @returns nulls with the reason: `no-rows`, `too-few-rows` (under three pairs), `collinear` where all means are equal; the line without
 *   test with `no-variance` where all pairs lie on it
 * @throws ArgumentError naming the column and index of a value at fault
 * @source Bland & Altman 1999, Stat Methods Med Res 8:135; Pitman 1939, Biometrika 31:9; Morgan 1939, Biometrika 31:13
 */
export function proportionalBias(columns: PairedReadings, options: LevelOption = {}): ProportionalBias {
  checkColumnNames(pairedReadingsNames, { columns });
  const { level } = readOptions(levelOption, options);
  checkPairs(columns);
  const { line, fit } = lineOn(magnitudesOf(columns), { response: differencesOf(columns), level });
  const correlation =
    fit.rSquared === null || line.slope === null
      ? null
      : Math.sign(line.slope) * Math.sqrt(Math.max(0, fit.rSquared));
  return { ...line, n: columns.first.length, correlation, level };
}

export interface LimitsByMagnitude {
  readonly n: number;
  readonly bias: MagnitudeLine;
  /** Line of the absolute residuals; times sqrt(pi / 2) it is the standard deviation at a magnitude. */
  readonly absoluteResidual: MagnitudeLine;
  /** Around the line of the bias, n - 2. */
  readonly residualDeviation: number | null;
  readonly at: readonly {
    readonly magnitude: number;
    readonly bias: number | null;
    readonly lower: number | null;
    readonly upper: number | null;
  }[];
  readonly multiplier: number;
  readonly reason: Reason | null;
}

export const limitsByMagnitudeOptions = {
  /** Magnitudes at which limits are wanted. */
  at: needed(list<ArrayLike<number>>()),
  /** "constant" (default): one standard deviation around the line; "with magnitude": it follows a line too. */
  spread: oneOf(["constant", "with magnitude"], "constant"),
  /** Default 1.96 (to full precision). */
  multiplier: number("positive", normalCritical(0.95)),
  /** Of the slopes' intervals. Default 0.95. */
  level: confidenceLevel,
};

export interface LimitsByMagnitudeOptions extends OptionsOf<typeof limitsByMagnitudeOptions> {}

/**
 * Limits of agreement that follow the magnitude A: b0 + b1 A -+ 1.96 SD(A), b by least squares of the differences on A; SD(A)
 * the residual one, or sqrt(pi / 2) (c0 + c1 A) with c by least squares of the absolute residuals.
 *
 * @returns nulls with the reason of the line; limits null where the line of the spread is negative
 * @throws ArgumentError naming the column and index of a value at fault
 * @source Bland & Altman 1999, Stat Methods Med Res 8:135, section 3.2
 */
export function limitsByMagnitude(
  columns: PairedReadings,
  options: LimitsByMagnitudeOptions,
): LimitsByMagnitude {
  checkColumnNames(pairedReadingsNames, { columns });
  const { at, spread, multiplier, level } = readOptions(limitsByMagnitudeOptions, options);
  checkPairs(columns);
  checkColumn({ name: "at", values: at }, "finite");
  const magnitudes = magnitudesOf(columns);
  const bias = lineOn(magnitudes, { response: differencesOf(columns), level });
  const residuals = bias.fit.residuals.map((residual) => Math.abs(residual));
  const absolute = lineOn(magnitudes, { response: residuals, level });
  const valueOn = ({ intercept, slope }: MagnitudeLine, x: number): number | null =>
    intercept === null || slope === null ? null : intercept + slope * x;
  const deviationAt = (x: number): number | null => {
    if (spread === "constant") return bias.fit.residualDeviation;
    const value = valueOn(absolute.line, x);
    return value === null || value < 0 ? null : Math.sqrt(Math.PI / 2) * value;
  };
  return {
    n: columns.first.length,
    bias: bias.line,
    absoluteResidual: absolute.line,
    residualDeviation: bias.fit.residualDeviation,
    at: Array.from(at, (magnitude) => {
      const middle = valueOn(bias.line, magnitude);
      const deviation = deviationAt(magnitude);
      if (middle === null || deviation === null) return { magnitude, bias: middle, lower: null, upper: null };
      const half = multiplier * deviation;
      return { magnitude, bias: middle, lower: middle - half, upper: middle + half };
    }),
    multiplier,
    reason: bias.line.reason,
  };
}

function lineOn(
  magnitudes: ArrayLike<number>,
  { response, level }: { readonly response: ArrayLike<number>; readonly level: number },
): { readonly line: MagnitudeLine; readonly fit: LinearFit } {
  const fit = linearRegression(
    { response, covariates: { names: ["magnitude"], columns: [magnitudes] } },
    { level, variance: "classical" },
  );
  const line = {
    intercept: fit.coefficients[0] ?? null,
    slope: fit.coefficients[1] ?? null,
    standardError: fit.standardErrors[1] ?? null,
    lower: fit.lower[1] ?? null,
    upper: fit.upper[1] ?? null,
    t: fit.t[1] ?? null,
    df: fit.df,
    p: fit.p[1] ?? null,
    reason: fit.reason ?? fit.reasons[1] ?? null,
  };
  return { line, fit };
}
