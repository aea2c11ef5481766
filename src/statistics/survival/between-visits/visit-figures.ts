import { tCritical, tTwoSided } from "../../shared/distributions.js";
import type { Reason } from "../../shared/figure.js";
import { rootBetween } from "../../shared/root.js";

/** A figure with its interval; null with a reason. */
export interface VisitFigure {
  readonly estimate: number | null;
  readonly standardError: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  readonly reason: Reason | null;
}

export const missing = (reason: Reason): VisitFigure => ({
  estimate: null,
  standardError: null,
  lower: null,
  upper: null,
  reason,
});

/** How an estimate is spread: its large-sample variance, units (rows or clusters) and parameters of the model behind it. */
export interface Spread {
  readonly variance: number;
  readonly units: number;
  readonly parameters: number;
  readonly level: number;
}

/** Standard error with the factor units / (units - parameters), and the degrees of freedom of Student's t that are left. */
function inSmallSamples({ variance, units, parameters }: Spread): { error: number; df: number } {
  const df = Math.max(1, units - parameters);
  return { error: Math.sqrt((Math.max(0, variance) * units) / df), df };
}

/** A figure, and what its limits are at each critical value of Student's t; null where it has none. */
export interface RecoverableFigure {
  readonly figure: VisitFigure;
  readonly limitsAt: ((critical: number) => Limits) | null;
}

type Limits = readonly [lower: number, upper: number];

/** A figure between 0 and `top`: limits on the logit of its part of that, so that they stay between. Infinite top: on its logarithm. */
export function boundedFigure(estimate: number, of: Spread & { readonly top: number }): RecoverableFigure {
  const without = (figure: VisitFigure): RecoverableFigure => ({ figure, limitsAt: null });
  if (of.units <= of.parameters) return without({ ...missing("too-few-rows"), estimate });
  const { error, df } = inSmallSamples(of);
  if (!Number.isFinite(estimate) || !Number.isFinite(error)) return without(missing("no-variance"));
  if (!(error > 0) || !(estimate > 0) || !(estimate < of.top))
    return without({ ...missing("no-variance"), estimate, standardError: error });
  const limitsAt = limitsWithin(estimate, { error, top: of.top });
  const [lower, upper] = limitsAt(tCritical(of.level, df));
  return {
    limitsAt,
    figure: {
      estimate,
      standardError: error,
      lower,
      upper: Number.isFinite(upper) ? upper : null,
      reason: null,
    },
  };
}

function limitsWithin(
  estimate: number,
  { error, top }: { readonly error: number; readonly top: number },
): (critical: number) => Limits {
  if (top === Number.POSITIVE_INFINITY)
    return (critical) => {
      const factor = Math.exp((critical * error) / estimate);
      return [estimate / factor, estimate * factor];
    };
  const part = estimate / top;
  const centre = Math.log(part / (1 - part));
  const back = (logit: number): number => top / (1 + Math.exp(-logit));
  return (critical) => {
    const reach = (critical * error) / top / (part * (1 - part));
    return [back(centre - reach), back(centre + reach)];
  };
}

/** A difference with the p of the interval: 1 less the level at which a limit comes to 0. */
export interface VisitDifference extends VisitFigure {
  readonly p: number | null;
}

/**
 * One figure less another: limits recovered from the limits of the two, with their correlation, so that no difference of shares lies
 * outside -1 and 1; p by the same limits.
 *
 * @source Zou & Donner 2008, Stat Med 27:1693
 */
export function recoveredDifference(
  [a, b]: readonly [RecoverableFigure, RecoverableFigure],
  of: Spread,
): VisitDifference {
  const [one, other] = [a.figure, b.figure];
  if (one.estimate === null || other.estimate === null)
    return { ...missing(one.reason ?? other.reason ?? "no-variance"), p: null };
  const estimate = one.estimate - other.estimate;
  if (a.limitsAt === null || b.limitsAt === null)
    return { ...missing(one.reason ?? other.reason ?? "no-variance"), estimate, p: null };
  const { error, df } = inSmallSamples(of);
  if (!Number.isFinite(error)) return { ...missing("no-variance"), p: null };
  const both = one.standardError! * other.standardError!;
  const free = one.standardError! ** 2 + other.standardError! ** 2;
  const correlation = Math.max(-1, Math.min(1, (free - error * error) / (2 * both)));
  const away = (x: number, y: number): number =>
    Math.sqrt(Math.max(0, x * x + y * y - 2 * correlation * x * y));
  const [ownLimits, otherLimits] = [a.limitsAt, b.limitsAt];
  const limitsAt = (critical: number): Limits => {
    const [[lowerA, upperA], [lowerB, upperB]] = [ownLimits(critical), otherLimits(critical)];
    return [
      estimate - away(one.estimate! - lowerA, upperB - other.estimate!),
      estimate + away(upperA - one.estimate!, other.estimate! - lowerB),
    ];
  };
  const [lower, upper] = limitsAt(tCritical(of.level, df));
  const isOpen = !Number.isFinite(lower) || !Number.isFinite(upper);
  return {
    estimate,
    standardError: error,
    lower: Number.isFinite(lower) ? lower : null,
    upper: Number.isFinite(upper) ? upper : null,
    reason: isOpen ? "no-variance" : null,
    p: tTwoSided(criticalAtNone(limitsAt, estimate), df),
  };
}

/** Beyond this no p can be told from 0. */
const mostCritical = 1e3;

/** The critical value at which the limit that faces 0 comes to it. */
function criticalAtNone(limitsAt: (critical: number) => Limits, estimate: number): number {
  if (estimate === 0) return 0;
  const facing = (critical: number): number => {
    const [lower, upper] = limitsAt(critical);
    return estimate > 0 ? lower : -upper;
  };
  let reach = 1;
  while (reach < mostCritical && facing(reach) > 0) reach *= 2;
  return facing(reach) > 0 ? mostCritical : rootBetween(facing, [0, reach]);
}
