import { ArgumentError, checkNumber } from "../shared/arguments.js";
import { normalCritical, normalTwoSided, tCritical, tTwoSided } from "../shared/distributions.js";
import type { Reason } from "../shared/figure.js";
import {
  checkResult,
  confidenceLevel,
  type LevelOption,
  levelOption,
  needed,
  number,
  type OptionsOf,
  readOptions,
} from "../shared/options.js";
import { type SizedShare, scoreLimits, touchingZero } from "./score-limits.js";

/** An estimate with its limits and the p-value that belongs to them. */
export interface SmallSampleInterval {
  readonly estimate: number;
  readonly lower: number | null;
  readonly upper: number | null;
  readonly p: number | null;
  readonly reason: Reason | null;
}

/** How many independent units an estimate rests on, and how many curves were fitted to them. */
export const studentIntervalOptions = {
  /** Rows, or clusters where rows belong together. */
  units: needed(number("count")),
  /** Curves that the estimate is made of. */
  curves: needed(number("count")),
  /** Default 0.95. */
  level: confidenceLevel,
};

export interface StudentIntervalOptions extends OptionsOf<typeof studentIntervalOptions> {}

/**
 * Interval and test of an estimate by Student's t with a small-sample factor: SE^2 n / (n - k), n - k degrees of freedom, for n units
 * (rows, or clusters where the error is summed within clusters) to which k curves were fitted.
 *
 * Greenwood's and the jackknife's errors are too small in small groups; this is what a mean would be given. How often such intervals hold
 * the truth is measured in tests/honesty.
 *
 * @param difference estimate; standardError: large-sample error, 0 or more
 * @returns no limits with `no-variance` for an error of 0, with `too-few-rows` for n <= k
 * @throws ArgumentError for an estimate that is not finite, a negative error, numbers of units or curves that are not whole, or the level
 * @source Student 1908, Biometrika 6:1; factor as for regression, Hinkley 1977, Technometrics 19:285
 */
export function studentInterval(
  difference: { readonly estimate: number; readonly standardError: number },
  options: StudentIntervalOptions,
): SmallSampleInterval {
  checkResult(
    { difference },
    { expected: "an object with an estimate and its standardError", has: ["estimate", "standardError"] },
  );
  const { units, curves, level } = readOptions(studentIntervalOptions, options);
  const { estimate, standardError } = difference;
  checkNumber({ name: "estimate", value: estimate }, "finite");
  checkNumber({ name: "standardError", value: standardError }, "not negative");
  const df = units - curves;
  if (standardError === 0) return { estimate, lower: null, upper: null, p: null, reason: "no-variance" };
  if (df < 1) return { estimate, lower: null, upper: null, p: null, reason: "too-few-rows" };
  const error = standardError * Math.sqrt(units / df);
  const half = tCritical(level, df) * error;
  return {
    estimate,
    lower: estimate - half,
    upper: estimate + half,
    p: tTwoSided(estimate / error, df),
    reason: null,
  };
}

/** A share back at a time, as `shareAt` tells it, and the size of its group. */
export interface SharePoint {
  readonly returned: number;
  readonly standardError: number | null;
  readonly atRisk: number;
  /** Left out: none. */
  readonly cumulativeCompeting?: number;
  readonly n: number;
  /** Independent units among the n rows: clusters where rows belong together. Left out: n. */
  readonly units?: number;
}

/**
 * Size of the sample that would have this standard error without censoring; with nobody back those of whom it is known (at risk, or with a
 * competing end), with everybody back all, each counted in independent units.
 */
export function sizedShare(point: SharePoint): SizedShare {
  const { returned: share, standardError, atRisk, cumulativeCompeting = 0, n, units = n } = point;
  if (share > 0 && share < 1 && standardError !== null && standardError > 0)
    return { share, size: (share * (1 - share)) / standardError ** 2 };
  const rows = share <= 0 ? atRisk + cumulativeCompeting : n;
  return { share, size: units === n ? rows : (rows * units) / n };
}

function checkPoint(
  side: string,
  { returned, standardError, atRisk, cumulativeCompeting = 0, n, units = n }: SharePoint,
): void {
  if (!(Number.isFinite(returned) && returned >= 0 && returned <= 1))
    throw new ArgumentError({
      argument: `${side}.returned`,
      index: null,
      expected: "a number from 0 to 1",
      found: returned,
    });
  if (standardError !== null)
    checkNumber({ name: `${side}.standardError`, value: standardError }, "not negative");
  checkNumber({ name: `${side}.atRisk`, value: atRisk }, "not negative");
  checkNumber({ name: `${side}.cumulativeCompeting`, value: cumulativeCompeting }, "not negative");
  checkNumber({ name: `${side}.n`, value: n }, "not negative");
  checkNumber({ name: `${side}.units`, value: units }, "not negative");
}

/**
 * Score limits of one share back on its effective size S (1 - S) / SE^2. Defined also where nobody or everybody is back, when a curve has no
 * limits of its own.
 *
 * @returns no limits with `no-rows` where there is nobody to tell by
 * @throws ArgumentError naming the figure at fault, or the level
 * @source Wilson 1927, J Am Stat Assoc 22:209; effective size: Cutler & Ederer 1958, J Chronic Dis 8:699
 */
export function shareInterval(share: SharePoint, options: LevelOption = {}): Omit<SmallSampleInterval, "p"> {
  checkResult(
    { share },
    {
      expected: "an object with returned, standardError, atRisk and n",
      has: ["returned", "standardError", "atRisk", "n"],
    },
  );
  const { level } = readOptions(levelOption, options);
  checkPoint("share", share);
  const sized = sizedShare(share);
  const estimate = share.returned;
  if (!(sized.size > 0)) return { estimate, lower: null, upper: null, reason: "no-rows" };
  const [lower, upper] = scoreLimits(sized, normalCritical(level));
  // at the ends the formula is 0 or 1 but for rounding
  return {
    estimate,
    lower: estimate === 0 ? 0 : lower,
    upper: estimate === 1 ? 1 : upper,
    reason: null,
  };
}

/**
 * Difference a - b of two shares of product-limit or incidence curves, with limits recovered from the score limits of each share on its effective size
 * S (1 - S) / SE^2: lower = d - sqrt((a - lower a)^2 + (upper b - b)^2), upper likewise. Defined also where nobody or everybody of a group is
 * back. p: the level at which the interval touches 0.
 *
 * @returns no limits with `no-rows` where a group has nobody to tell by
 * @throws ArgumentError naming the side's figure at fault, or the level
 * @source score limits: Wilson 1927, J Am Stat Assoc 22:209; effective size: Cutler & Ederer 1958, J Chronic Dis 8:699; recovery: Newcombe 1998,
 *   Stat Med 17:873, Zou & Donner 2008, Stat Med 27:1693
 */
export function shareDifference(
  a: SharePoint,
  b: SharePoint,
  options: LevelOption = {},
): SmallSampleInterval {
  checkResult(
    { a, b },
    {
      expected: "an object with returned, standardError, atRisk and n",
      has: ["returned", "standardError", "atRisk", "n"],
    },
  );
  const { level } = readOptions(levelOption, options);
  checkPoint("a", a);
  checkPoint("b", b);
  const z = normalCritical(level);
  const estimate = a.returned - b.returned;
  const sized = { a: sizedShare(a), b: sizedShare(b) };
  if (!(sized.a.size > 0 && sized.b.size > 0)) {
    return { estimate, lower: null, upper: null, p: null, reason: "no-rows" };
  }
  const limitsAt = (z: number): readonly [number, number] => {
    const [lowerA, upperA] = scoreLimits(sized.a, z);
    const [lowerB, upperB] = scoreLimits(sized.b, z);
    return [
      estimate - Math.hypot(a.returned - lowerA, upperB - b.returned),
      estimate + Math.hypot(upperA - a.returned, b.returned - lowerB),
    ];
  };
  const [lower, upper] = limitsAt(z);
  return { estimate, lower, upper, p: normalTwoSided(touchingZero(estimate, limitsAt)), reason: null };
}
