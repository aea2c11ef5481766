import { ArgumentError } from "../../shared/arguments.js";
import { normalCritical } from "../../shared/distributions.js";
import {
  checkColumnNames,
  type LevelOption,
  levelOption,
  type NamesOf,
  readOptions,
} from "../../shared/options.js";
import { rootBetween } from "../../shared/root.js";
import { probabilityOfBridgeStaying } from "./brownian-bridge.js";
import { probabilityOfStaying } from "./stationary-process.js";

/** From where to where a band holds, on the scale a(t) = n s2(t) / (1 + n s2(t)), s2 the variance of log S(t). */
export interface BandRange {
  readonly from: number;
  readonly to: number;
}

export const bandRangeNames: NamesOf<BandRange> = { from: true, to: true };

function checkRange({ from, to }: BandRange, least: "above 0" | "0 or more"): void {
  const tooLow = least === "above 0" ? !(from > 0) : !(from >= 0);
  if (tooLow || !(from < 1))
    throw new ArgumentError({
      argument: "range.from",
      index: null,
      expected: `a number below 1, ${least}`,
      found: from,
    });
  if (!(to >= from && to < 1))
    throw new ArgumentError({
      argument: "range.to",
      index: null,
      expected: "a number from range.from to below 1",
      found: to,
    });
}

/** Root of an increasing function; in a range so narrow that rounding hides the root, the lower end. */
const rootAbove = (f: (x: number) => number, ends: readonly [number, number]): number =>
  f(ends[0]) >= 0 ? ends[0] : rootBetween(f, ends);

/**
 * Critical value of the equal-precision band: the c with P(|B(u)| / sqrt(u (1 - u)) <= c for u in the range) = level, B a Brownian bridge.
 *
 * Solved exactly (to about 1e-10) by way of the stationary Ornstein-Uhlenbeck process of duration 0.5 log(to (1 - from) / (from (1 - to)));
 * printed tables rest on an approximation and differ in the second or third decimal. A range of one point gives the pointwise value.
 *
 * @throws ArgumentError for a range outside (0, 1) or a level outside (0, 1)
 * @source Nair 1984, Technometrics 26:265
 * @example
 * equalPrecisionCritical({ from: 0.1, to: 0.58 }) // => 2.8774
 */
export function equalPrecisionCritical(range: BandRange, options: LevelOption = {}): number {
  checkColumnNames(bandRangeNames, { range });
  const { level } = readOptions(levelOption, options);
  checkRange(range, "above 0");
  const { from, to } = range;
  const duration = 0.5 * (Math.log(to / from) + Math.log1p(-from) - Math.log1p(-to));
  const pointwise = normalCritical(level);
  if (!(duration > 0)) return pointwise;
  const excess = (c: number): number => probabilityOfStaying(c, duration) - level;
  let high = pointwise + 0.5;
  while (excess(high) < 0) high += 0.5;
  return rootAbove(excess, [Math.max(pointwise, high - 0.5), high]);
}

/**
 * Critical value of the Hall-Wellner band: the k with P(|B(u)| <= k for u in the range) = level, B a Brownian bridge.
 *
 * Solved exactly (to about 1e-10) by reflection and integration over the value where the range starts.
 *
 * @throws ArgumentError for a range outside [0, 1) or of no width at 0, or a level outside (0, 1)
 * @source Hall & Wellner 1980, Biometrika 67:133
 * @example
 * hallWellnerCritical({ from: 0.1, to: 0.6 }) // => 1.3211
 */
export function hallWellnerCritical(range: BandRange, options: LevelOption = {}): number {
  checkColumnNames(bandRangeNames, { range });
  const { level } = readOptions(levelOption, options);
  checkRange(range, "0 or more");
  const { from, to } = range;
  if (to === 0)
    throw new ArgumentError({ argument: "range.to", index: null, expected: "above 0", found: to });
  const widest = Math.min(Math.max(0.5, from), to);
  const onePoint = normalCritical(level) * Math.sqrt(widest * (1 - widest));
  if (from === to) return onePoint;
  // P(sup |B| > k) over all of [0, 1] is below 2 exp(-2 k^2)
  const wholeRange = Math.sqrt(-Math.log((1 - level) / 2) / 2);
  const excess = (k: number): number => probabilityOfBridgeStaying(k, range) - level;
  return rootAbove(excess, [onePoint, wholeRange]);
}
