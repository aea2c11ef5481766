import { ArgumentError, checkNumber } from "../shared/arguments.js";
import { normalCritical } from "../shared/distributions.js";
import type { Reason } from "../shared/figure.js";
import { type LevelOption, levelOption, readOptions } from "../shared/options.js";

export interface ProportionInterval {
  readonly estimate: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  readonly level: number;
  readonly reason: Reason | null;
}

/**
 * A proportion with Wilson's score interval, without continuity correction; never outside 0 to 1.
 *
 * (p + z^2/2n -+ z sqrt(p (1 - p) / n + z^2/4n^2)) / (1 + z^2/n).
 *
 * @param n whole number; 0 gives nulls with `no-rows`
 * @throws ArgumentError for counts that are not whole, or more successes than n
 * @source Wilson 1927, J Am Stat Assoc 22:209; Newcombe 1998, Stat Med 17:857
 */
export function wilson(successes: number, n: number, options: LevelOption = {}): ProportionInterval {
  const { level } = readOptions(levelOption, options);
  checkNumber({ name: "n", value: n }, "count");
  checkNumber({ name: "successes", value: successes }, "count");
  if (successes > n)
    throw new ArgumentError({
      argument: "successes",
      index: null,
      expected: `at most n, which is ${n}`,
      found: successes,
    });
  const z = normalCritical(level);
  if (n === 0) return { estimate: null, lower: null, upper: null, level, reason: "no-rows" };
  const p = successes / n;
  const middle = p + (z * z) / (2 * n);
  const half = z * Math.sqrt((p * (1 - p)) / n + (z * z) / (4 * n * n));
  const scale = 1 + (z * z) / n;
  return {
    estimate: p,
    // at the ends the formula is 0 or 1 but for rounding
    lower: successes === 0 ? 0 : (middle - half) / scale,
    upper: successes === n ? 1 : (middle + half) / scale,
    level,
    reason: null,
  };
}
