import { checkColumn } from "../shared/arguments.js";
import { chiSquareUpperTail, normalCritical } from "../shared/distributions.js";
import type { Reason, TestResult } from "../shared/figure.js";
import {
  checkColumnNames,
  confidenceLevel,
  list,
  type NamesOf,
  needed,
  type OptionsOf,
  readOptions,
} from "../shared/options.js";
import { type Difference, differenceOf, type Ratio, ratioOf } from "./contrast.js";
import type { Curve } from "./curve.js";
import { limitsOfShare } from "./curve-intervals.js";
import { type ShareAt, shareAt } from "./share-at.js";

/** Two curves of independent groups. */
export interface TwoCurves {
  readonly a: Curve;
  readonly b: Curve;
}

export const twoCurvesNames: NamesOf<TwoCurves> = { a: true, b: true };

/** What two curves say at one time about the shares that have had the event. */
export interface LandmarkContrast {
  readonly time: number;
  readonly a: ShareAt;
  readonly b: ShareAt;
  /** Share with the event in a less that in b, with the plain normal interval. */
  readonly difference: Difference;
  /** Of the same difference, from the log-log intervals of the two shares: the one to report where groups are small. */
  readonly hybrid: {
    readonly lower: number | null;
    readonly upper: number | null;
    readonly reason: Reason | null;
  };
  /** Share with the event in a over that in b. */
  readonly ratio: Ratio;
  /** Of equal shares, on the log-log scale. */
  readonly test: TestResult;
}

interface Interval {
  readonly share: number;
  readonly lower: number;
  readonly upper: number;
}

/** The log-log interval of the share with the event, at a level that need not be the curve's own. */
function intervalOf(at: ShareAt, z: number): Interval | null {
  if (at.notYet === null || at.standardError === null) return null;
  const point = { share: at.notYet, errorOfLog: at.standardError / at.notYet };
  const limits = limitsOfShare(point, { scale: "log-log", z });
  return limits && { share: 1 - at.notYet, lower: 1 - limits[1], upper: 1 - limits[0] };
}

function hybridOf(at: { a: ShareAt; b: ShareAt }, z: number): LandmarkContrast["hybrid"] {
  const [a, b] = [intervalOf(at.a, z), intervalOf(at.b, z)];
  if (a === null || b === null) {
    const silent = a === null ? at.a : at.b;
    return { lower: null, upper: null, reason: silent.reason ?? silent.limitsReason };
  }
  const difference = a.share - b.share;
  return {
    lower: difference - Math.hypot(a.share - a.lower, b.upper - b.share),
    upper: difference + Math.hypot(a.upper - a.share, b.share - b.lower),
    reason: null,
  };
}

/** (log(-log S_a) - log(-log S_b))^2 over the sum of the variances of the two. */
function logLogTest({ a, b }: { a: ShareAt; b: ShareAt }): TestResult {
  const transformed = [a, b].map(({ notYet, standardError }) => {
    if (notYet === null || standardError === null || !(notYet > 0 && notYet < 1) || !(standardError > 0))
      return null;
    const log = Math.log(notYet);
    return { value: Math.log(-log), error: standardError / (notYet * log) };
  });
  const [x, y] = transformed;
  if (x == null || y == null) {
    const silent = x == null ? a : b;
    return { statistic: null, df: 1, p: null, reason: silent.reason ?? silent.limitsReason ?? "no-variance" };
  }
  const statistic = (x.value - y.value) ** 2 / (x.error ** 2 + y.error ** 2);
  return { statistic, df: 1, p: chiSquareUpperTail(statistic, 1), reason: null };
}

/** What contrasts take; a missing share keeps its reason. */
const estimateOf = ({ returned, standardError }: ShareAt) => ({ estimate: returned, standardError });

const withReason = <Contrast extends { readonly reason: Reason | null }>(
  contrast: Contrast,
  { a, b }: { a: ShareAt; b: ShareAt },
): Contrast => ({ ...contrast, reason: a.reason ?? b.reason ?? contrast.reason });

export const landmarkOptions = {
  /** Landmarks, 0 or more. */
  times: needed(list<ArrayLike<number>>()),
  /** Of all intervals, whatever the level of the curves. Default 0.95. */
  level: confidenceLevel,
};

export interface LandmarkOptions extends OptionsOf<typeof landmarkOptions> {}

/**
 * Shares with the event at given times in two independent groups, compared: difference, ratio, and a test.
 *
 * F = 1 - S. Difference F_a - F_b: the plain interval adds the variances and can be far off, or leave -1 to 1, in groups of fewer than about
 * fifty or with shares near 0 or 1. The hybrid interval puts the two log-log intervals together: lower limit d - sqrt((F_a - l_a)^2 + (u_b -
 * F_b)^2), upper limit d + sqrt((u_a - F_a)^2 + (F_b - l_b)^2); it keeps their skewness and stays within -1 to 1. Ratio F_a / F_b: on the log
 * scale, delta method. Test: log(-log S), which keeps its level best of the usual scales. Curves with clusters bring their own robust
 * errors, but people with records in both groups are not accounted for.
 *
 * Where a share has no value the contrasts have its reason (`beyond-follow-up`, `no-rows`); a group without events yet, or with nobody left,
 * has no interval of its own, so there is no hybrid interval and no test (`no-events`, `all-returned`), and no ratio over or of 0 (`not-positive`).
 *
 * @param times 0 or more, in the unit of the curves
 * @returns one entry a time, in the order asked
 * @throws ArgumentError naming the index of a time at fault, or the level
 * @source hybrid interval: Newcombe 1998, Stat Med 17:873, for any two intervals Zou & Donner 2008, Stat Med 27:1693; test: Klein,
 *   Logan, Harhoff & Andersen 2007, Stat Med 26:4505
 */
export function landmarkContrast(curves: TwoCurves, options: LandmarkOptions): LandmarkContrast[] {
  checkColumnNames(twoCurvesNames, { curves });
  const { a, b } = curves;
  const { times, level } = readOptions(landmarkOptions, options);
  checkColumn({ name: "times", values: times }, "not negative");
  const z = normalCritical(level);
  return Array.from(times, (time) => {
    const at = { a: shareAt(a, time), b: shareAt(b, time) };
    const [first, second] = [estimateOf(at.a), estimateOf(at.b)];
    return {
      time,
      ...at,
      difference: withReason(differenceOf(first, second, { level }), at),
      hybrid: hybridOf(at, z),
      ratio: withReason(ratioOf(first, second, { level }), at),
      test: logLogTest(at),
    };
  });
}
