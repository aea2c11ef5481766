import { normalCritical } from "../shared/distributions.js";
import type { Reason } from "../shared/figure.js";
import { checkColumnNames, type LevelOption, levelOption, readOptions } from "../shared/options.js";
import { checkPairs, type PairedReadings, pairedReadingsNames } from "./paired-readings.js";

export interface ConcordanceCorrelation {
  readonly n: number;
  readonly estimate: number | null;
  readonly standardError: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  /** Product-moment correlation: the concordance if neither mean nor spread differed. */
  readonly correlation: number | null;
  readonly level: number;
  readonly reason: Reason | null;
}

/**
 * ConcordanceCorrelation correlation of two readings on the same subjects: 2 s_xy / (s_x^2 + s_y^2 + (mean_x - mean_y)^2), moments over n.
 *
 * 1 only when every pair is equal. Depends on how much subjects differ, as every correlation does: limits of agreement say
 * more. Interval on Fisher's z scale, with Var(rho_c) = [(1 - r^2) c^2 (1 - c^2) / r^2 + 2 c^3 (1 - c) u^2 / r - c^4 u^4 / (2 r^2)] / (n - 2),
 * c = rho_c, u^2 = (mean_x - mean_y)^2 / (s_x s_y).
 *
 * @param columns first and second, equally long
 * @returns nulls with `no-rows`, `too-few-rows` (one pair), `no-variance` (both constant and equal); the estimate without interval
 *   with `too-few-rows` (two pairs) or `no-variance` (one column constant, r = 0, or perfect concordance)
 * @throws ArgumentError naming the column and index of a value at fault
 * @source Lin 1989, Biometrics 45:255; corrected: Lin 2000, Biometrics 56:324
 * @example
 * concordanceCorrelation({ first: [1, 2, 3], second: [2, 3, 4] }).estimate // => 4/7
 */
export function concordanceCorrelation(
  columns: PairedReadings,
  options: LevelOption = {},
): ConcordanceCorrelation {
  checkColumnNames(pairedReadingsNames, { columns });
  const { level } = readOptions(levelOption, options);
  checkPairs(columns);
  const z = normalCritical(level);
  const n = columns.first.length;
  const none = { n, level, estimate: null, standardError: null, lower: null, upper: null, correlation: null };
  if (n < 2) return { ...none, reason: n === 0 ? "no-rows" : "too-few-rows" };
  const { x, y, xy, apart } = moments(columns);
  const whole = x + y + apart ** 2;
  if (!(whole > 0)) return { ...none, reason: "no-variance" };
  const estimate = (2 * xy) / whole;
  const correlation = x > 0 && y > 0 ? Math.max(-1, Math.min(1, xy / Math.sqrt(x * y))) : null;
  const found = { ...none, estimate, correlation };
  if (n < 3) return { ...found, reason: "too-few-rows" };
  const variance =
    correlation === null || correlation === 0
      ? 0
      : varianceOf({ c: estimate, r: correlation, u2: apart ** 2 / Math.sqrt(x * y) }) / (n - 2);
  if (!(variance > 0) || Math.abs(estimate) >= 1) return { ...found, reason: "no-variance" };
  const half = (z * Math.sqrt(variance)) / (1 - estimate ** 2);
  const middle = Math.atanh(estimate);
  return {
    ...found,
    standardError: Math.sqrt(variance),
    lower: Math.tanh(middle - half),
    upper: Math.tanh(middle + half),
    reason: null,
  };
}

const varianceOf = ({ c, r, u2 }: { readonly c: number; readonly r: number; readonly u2: number }): number =>
  ((1 - r * r) * c * c * (1 - c * c)) / (r * r) +
  (2 * c * c * c * (1 - c) * u2) / r -
  (c * c * c * c * u2 * u2) / (2 * r * r);

function moments({ first, second }: PairedReadings): { x: number; y: number; xy: number; apart: number } {
  const n = first.length;
  let meanX = 0;
  let meanY = 0;
  for (let row = 0; row < n; row++) {
    meanX += first[row]! / n;
    meanY += second[row]! / n;
  }
  const sums = { x: 0, y: 0, xy: 0 };
  for (let row = 0; row < n; row++) {
    const dx = first[row]! - meanX;
    const dy = second[row]! - meanY;
    sums.x += dx * dx;
    sums.y += dy * dy;
    sums.xy += dx * dy;
  }
  return { x: sums.x / n, y: sums.y / n, xy: sums.xy / n, apart: meanX - meanY };
}
