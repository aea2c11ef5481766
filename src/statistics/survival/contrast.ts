import { checkNumber } from "../shared/arguments.js";
import { normalCritical, normalTwoSided } from "../shared/distributions.js";
import type { Estimate, Reason } from "../shared/figure.js";
import type { LevelOption } from "../shared/options.js";
import { checkResult, levelOption, readOptions } from "../shared/options.js";

/** a minus b. */
export interface Difference {
  readonly difference: number | null;
  readonly standardError: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  readonly z: number | null;
  readonly p: number | null;
  readonly level: number;
  readonly reason: Reason | null;
}

/** a over b. */
export interface Ratio {
  readonly ratio: number | null;
  /** Of the logarithm of the ratio. */
  readonly standardErrorOfLog: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  readonly z: number | null;
  readonly p: number | null;
  readonly level: number;
  readonly reason: Reason | null;
}

/** An estimate with the interval and normal test that its standard error gives. */
export function differenceFrom(
  whole: { readonly difference: number; readonly standardError: number },
  { level }: { readonly level: number },
): Difference {
  const half = normalCritical(level) * whole.standardError;
  if (!(whole.standardError > 0))
    return { ...whole, lower: null, upper: null, z: null, p: null, level, reason: "no-variance" };
  const z = whole.difference / whole.standardError;
  return {
    ...whole,
    lower: whole.difference - half,
    upper: whole.difference + half,
    z,
    p: normalTwoSided(z),
    level,
    reason: null,
  };
}

/** @throws ArgumentError naming the figure that is no number */
function checkSides(sides: { readonly a: Estimate; readonly b: Estimate }): void {
  checkResult(sides, {
    expected: "an object with an estimate and its standardError",
    has: ["estimate", "standardError"],
  });
  for (const side of ["a", "b"] as const) {
    const { estimate, standardError } = sides[side];
    if (estimate !== null) checkNumber({ name: `${side}.estimate`, value: estimate }, "finite");
    if (standardError !== null)
      checkNumber({ name: `${side}.standardError`, value: standardError }, "not negative");
  }
}

/**
 * Difference a - b of two independent estimates, with a normal interval and test.
 *
 * SE = sqrt(SE_a^2 + SE_b^2). Null throughout, `no-rows`, where either estimate is missing; without variance the difference stands
 * alone (`no-variance`).
 */
export function differenceOf(a: Estimate, b: Estimate, options: LevelOption = {}): Difference {
  const { level } = readOptions(levelOption, options);
  checkSides({ a, b });
  if (a.estimate === null || b.estimate === null) {
    const none = { difference: null, standardError: null, lower: null, upper: null, z: null, p: null };
    return { ...none, level, reason: "no-rows" };
  }
  const difference = a.estimate - b.estimate;
  if (a.standardError === null || b.standardError === null) {
    const none = { standardError: null, lower: null, upper: null, z: null, p: null };
    return { difference, ...none, level, reason: "no-variance" };
  }
  return differenceFrom(
    { difference, standardError: Math.hypot(a.standardError, b.standardError) },
    { level },
  );
}

/**
 * Ratio a / b of two independent positive estimates, with interval and test on the log scale by the delta method.
 *
 * SE of the log = sqrt((SE_a / a)^2 + (SE_b / b)^2). `not-positive` where either is 0 or below.
 */
export function ratioOf(a: Estimate, b: Estimate, options: LevelOption = {}): Ratio {
  const { level } = readOptions(levelOption, options);
  checkSides({ a, b });
  const none = { ratio: null, standardErrorOfLog: null, lower: null, upper: null, z: null, p: null, level };
  if (a.estimate === null || b.estimate === null) return { ...none, reason: "no-rows" };
  if (a.estimate <= 0 || b.estimate <= 0) return { ...none, reason: "not-positive" };
  const ratio = a.estimate / b.estimate;
  if (a.standardError === null || b.standardError === null) return { ...none, ratio, reason: "no-variance" };
  const onLog = differenceFrom(
    {
      difference: Math.log(ratio),
      standardError: Math.hypot(a.standardError / a.estimate, b.standardError / b.estimate),
    },
    { level },
  );
  return {
    ratio,
    standardErrorOfLog: onLog.standardError,
    lower: onLog.lower === null ? null : Math.exp(onLog.lower),
    upper: onLog.upper === null ? null : Math.exp(onLog.upper),
    z: onLog.z,
    p: onLog.p,
    level,
    reason: onLog.reason,
  };
}
