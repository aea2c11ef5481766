import { checkNumber } from "../shared/arguments.js";
import type { Figure } from "../shared/figure.js";
import { type OptionsOf, oneOf, readOptions } from "../shared/options.js";
import type { Curve } from "./curve.js";
import { checkCurve } from "./curve.js";

/** A time with its interval; each may be missing, with a reason. */
export interface QuantileTime {
  readonly estimate: Figure;
  readonly lower: Figure;
  readonly upper: Figure;
}

export const quantileOptions = {
  /**
   * Where the curve sits exactly at the share asked for over a whole step: "start" takes the first time of that step,
   * the smallest t with S(t) <= 1 - p; "middle" the middle of the step, up to the last time where no later drop ends it.
   * Default "start".
   */
  flatStep: oneOf(["start", "middle"], "start"),
};

export interface QuantileOptions extends OptionsOf<typeof quantileOptions> {}

/** The products of a curve are off by at most about one rounding a factor; two shares closer than that are one. */
const slack = (factors: number): number => 2 * Number.EPSILON * (factors + 4);

/** First place at which the shares have come down to the one asked for; -1 where they never do. */
const firstAtOrBelow = (shares: readonly (number | null)[], asked: number): number => {
  const tolerance = slack(shares.length);
  return shares.findIndex((share) => share !== null && share <= asked + tolerance);
};

function firstTimeAtOrBelow(
  step: { readonly times: readonly number[]; readonly shares: readonly (number | null)[] },
  options: { readonly share: number; readonly flatStep: "start" | "middle" },
): number | null {
  const { times, shares } = step;
  const tolerance = slack(times.length);
  const reached = firstAtOrBelow(shares, options.share);
  if (reached < 0) return null;
  const start = times[reached]!;
  if (options.flatStep === "start" || Math.abs(shares[reached]! - options.share) > tolerance) return start;
  const next = shares.findIndex(
    (share, i) => i > reached && share !== null && share < options.share - tolerance,
  );
  const end = next >= 0 ? times[next]! : times[times.length - 1]!;
  return (start + end) / 2;
}

/**
 * Whether the curve comes down to the share at a time at which it has no limits, before its limit does: all at risk until then belong together, so
 * that no test of the share can be made there.
 */
function cameDownUntested({ notYet }: Curve, limits: readonly (number | null)[], share: number): boolean {
  const reached = firstAtOrBelow(limits, share);
  const tolerance = slack(limits.length);
  return notYet.some(
    (value, i) =>
      (reached < 0 || i < reached) && limits[i] === null && value > 0 && value <= share + tolerance,
  );
}

/**
 * The time by which a share p has had the event (0.5: the median), with a test-inverted interval.
 *
 * Estimate: smallest t with S(t) <= 1 - p. Limits: the same rule applied to the lower and the upper pointwise limit of the curve,
 * that is, the times at which a test of S(t) = 1 - p would not reject. A limit that the curve's limit never comes down to
 * is `not-reached`; both are null with `no-variance` where the curve comes down to 1 - p while all at risk are of one cluster.
 *
 * @param p share with the event, between 0 and 1
 * @throws ArgumentError for p outside (0, 1)
 * @source Brookmeyer & Crowley 1982, Biometrics 38:29
 * @example
 * quantileTime(productLimit({ times: [3, 5, 8, 9], events: [1, 1, 1, 1] }), 0.5).estimate // => { value: 5 }
 */
export function quantileTime(curve: Curve, p: number, options: QuantileOptions = {}): QuantileTime {
  checkCurve({ curve });
  checkNumber({ name: "p", value: p }, "open share");
  const { flatStep } = readOptions(quantileOptions, options);
  const find = (shares: readonly (number | null)[]): Figure => {
    if (cameDownUntested(curve, shares, 1 - p)) return { value: null, reason: "no-variance" };
    const value = firstTimeAtOrBelow({ times: curve.times, shares }, { share: 1 - p, flatStep });
    return value === null
      ? { value, reason: curve.lastTime === null ? "no-rows" : "not-reached" }
      : { value };
  };
  return { estimate: find(curve.notYet), lower: find(curve.lower), upper: find(curve.upper) };
}
