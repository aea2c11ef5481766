import { ArgumentError, checkIsColumn, checkNumber, checkSameLength } from "../shared/arguments.js";
import { normalCritical, normalLowerTail, normalQuantile } from "../shared/distributions.js";
import type { Reason } from "../shared/figure.js";
import {
  checkColumnNames,
  confidenceLevel,
  type NamesOf,
  type OptionsOf,
  oneOf,
  readOptions,
} from "../shared/options.js";
import { type ReplicateQuantile, replicateQuantile, replicateQuantiles } from "./replicate-quantile.js";

export type Limits = readonly [lower: number, upper: number];

/** Everything the intervals are made from. */
export interface IntervalMaterial {
  /** Of the data themselves. */
  readonly estimate: number;
  /** Of the data themselves; for the studentised interval. */
  readonly standardError?: number | null;
  /** NaN stands for a resample without a figure; it is left out and counted. */
  readonly replicates: ArrayLike<number>;
  /** One a replicate; for the studentised interval. */
  readonly standardErrors?: ArrayLike<number>;
  /** Without each unit in turn, all strata together; for the acceleration of BCa. Left out: acceleration 0. */
  readonly jackknife?: ArrayLike<number>;
}

export const intervalMaterialNames: NamesOf<IntervalMaterial> = {
  estimate: true,
  standardError: true,
  replicates: true,
  standardErrors: true,
  jackknife: true,
};

export const intervalOptions = {
  /** Default 0.95. */
  level: confidenceLevel,
  /** Default "type-6". */
  quantile: oneOf(replicateQuantiles, "type-6"),
  /**
   * How a replicate equal to the estimate counts for the bias correction of BCa: as one half below it (default), or not as below it. A
   * replicate within 1e-9 of the estimate, relative to it where it is above 1, is equal: rounding must not decide.
   */
  ties: oneOf(["half", "not-below"], "half"),
};

export interface IntervalOptions extends OptionsOf<typeof intervalOptions> {}

/** Bias-corrected and accelerated interval with what it was made from. */
export interface CorrectedInterval {
  readonly limits: Limits | null;
  /** Bias correction on the normal scale; null where all replicates lie on one side of the estimate. */
  readonly biasCorrection: number | null;
  readonly acceleration: number;
  /** The shares of the replicates at which the limits stand. */
  readonly shares: Limits | null;
}

/** Bootstrap intervals of one figure. */
export interface BootstrapIntervals {
  readonly estimate: number;
  /** Replicates used, and those without a figure. */
  readonly used: number;
  readonly failed: number;
  readonly mean: number | null;
  /** Mean of the replicates less the estimate. */
  readonly bias: number | null;
  /** Standard deviation of the replicates. */
  readonly standardError: number | null;
  readonly percentile: Limits | null;
  readonly basic: Limits | null;
  /** Estimate less bias, -+ z standard errors. */
  readonly normal: Limits | null;
  readonly normalWithoutBias: Limits | null;
  readonly bca: CorrectedInterval | null;
  /** Null without standard errors. */
  readonly studentised: Limits | null;
  /** Replicates equal to the estimate. */
  readonly tied: number;
  readonly level: number;
  readonly quantile: ReplicateQuantile;
  readonly ties: "half" | "not-below";
  /** `too-few-rows`: fewer than two replicates. `no-variance`: all replicates are one number, which is no reason to call it certain. */
  readonly reason: Reason | null;
}

/** @throws ArgumentError for an estimate that is not finite, or naming the column and index of a value that is infinite or none */
function checkMaterial({ estimate, replicates, standardErrors, jackknife }: IntervalMaterial): void {
  checkNumber({ name: "estimate", value: estimate }, "finite");
  checkIsColumn({ name: "replicates", values: replicates });
  const drawn = { name: "replicates", values: replicates };
  const beside = { name: "standardErrors", values: standardErrors ?? replicates };
  checkSameLength(beside, drawn);
  const without = { name: "jackknife", values: jackknife ?? [] };
  checkIsColumn(without);
  for (const { name, values } of [drawn, beside, without])
    for (let i = 0; i < values.length; i++) {
      const found = values[i];
      if (typeof found !== "number" || Math.abs(found) === Number.POSITIVE_INFINITY)
        throw new ArgumentError({
          argument: name,
          index: i,
          expected: "a finite number, or NaN for a resample without a figure",
          found,
        });
    }
}

/**
 * Bootstrap intervals from replicates: percentile, basic, normal, BCa and studentised.
 *
 * Percentile: quantiles q of the replicates. Basic: 2 estimate - q, turned round. BCa: quantiles at Phi(z0 + w / (1 - a w)), w = z0 + z,
 * z0 = Phi^-1(share of replicates below the estimate), a = sum l^3 / (6 (sum l^2)^1.5), l = mean of the leave-one-out values less each.
 * Studentised: estimate - se times quantiles of (replicate - estimate) / its own standard error.
 *
 * @returns no limits with `no-variance` where the replicates do not vary; BCa limits null where all replicates lie on one side of the estimate
 * @throws ArgumentError for a level outside (0, 1), an estimate that is not finite, or naming the column and index of a value at fault
 * @source Efron 1987, J Am Stat Assoc 82:171 (BCa); Davison & Hinkley 1997, Bootstrap Methods and their Application, chapter 5
 */
export function bootstrapIntervals(
  material: IntervalMaterial,
  options: IntervalOptions = {},
): BootstrapIntervals {
  checkColumnNames(intervalMaterialNames, { material });
  const { level, quantile, ties } = readOptions(intervalOptions, options);
  const z = normalCritical(level);
  checkMaterial(material);
  const { estimate } = material;
  const sorted = Float64Array.from(material.replicates)
    .filter((value) => !Number.isNaN(value))
    .sort();
  const used = sorted.length;
  const side = sidesOf(sorted, estimate);
  const common = {
    estimate,
    used,
    failed: material.replicates.length - used,
    tied: side.tied,
    level,
    quantile,
    ties,
  };
  if (used < 2) {
    const none = { mean: null, bias: null, standardError: null };
    return { ...common, ...none, ...noLimits, reason: "too-few-rows" };
  }
  const mean = sorted.reduce((sum, value) => sum + value, 0) / used;
  const bias = mean - estimate;
  const squares = sorted.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  const standardError = Math.sqrt(squares / (used - 1));
  if (standardError <= sameWithin * Math.max(1, Math.abs(estimate)))
    return { ...common, mean, bias, standardError: 0, ...noLimits, reason: "no-variance" };
  const tail = (1 - level) / 2;
  const at = (share: number): number => replicateQuantile(sorted, { share, kind: quantile });
  const percentile = [at(tail), at(1 - tail)] as const;
  const around = (middle: number): Limits => [middle - z * standardError, middle + z * standardError];
  const below = (side.below + (ties === "half" ? side.tied / 2 : 0)) / used;
  return {
    ...common,
    mean,
    bias,
    standardError,
    percentile,
    basic: [2 * estimate - percentile[1], 2 * estimate - percentile[0]],
    normal: around(estimate - bias),
    normalWithoutBias: around(estimate),
    bca: corrected({ below, acceleration: acceleration(material.jackknife ?? []), z, at }),
    studentised: studentised(material, { quantile, level }),
    reason: null,
  };
}

const noLimits = {
  percentile: null,
  basic: null,
  normal: null,
  normalWithoutBias: null,
  bca: null,
  studentised: null,
} as const;

/** Replicates closer to each other than this, relative to the estimate where it is above 1, are one number but for rounding. */
const sameWithin = 1e-9;

function sidesOf(sorted: Float64Array, estimate: number): { below: number; tied: number } {
  const tolerance = sameWithin * Math.max(1, Math.abs(estimate));
  let below = 0;
  let tied = 0;
  for (const value of sorted) {
    if (value < estimate - tolerance) below++;
    else if (value <= estimate + tolerance) tied++;
  }
  return { below, tied };
}

/** Skewness of the influence of single units, over 6 sqrt(n); 0 where leaving one out changes nothing. */
function acceleration(jackknife: ArrayLike<number>): number {
  const values = Float64Array.from(jackknife).filter((value) => !Number.isNaN(value));
  if (values.length === 0) return 0;
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  let squares = 0;
  let cubes = 0;
  for (const value of values) {
    const apart = mean - value;
    squares += apart * apart;
    cubes += apart * apart * apart;
  }
  const noise = 1e-13 * Math.max(Math.abs(mean), Number.MIN_VALUE);
  return squares <= values.length * noise * noise ? 0 : cubes / (6 * squares * Math.sqrt(squares));
}

function corrected(settings: {
  readonly below: number;
  readonly acceleration: number;
  readonly z: number;
  readonly at: (share: number) => number;
}): CorrectedInterval {
  const { below, acceleration, z, at } = settings;
  if (!(below > 0 && below < 1)) return { limits: null, biasCorrection: null, acceleration, shares: null };
  const biasCorrection = normalQuantile(below);
  const moved = [biasCorrection - z, biasCorrection + z] as const;
  // beyond 1 / a the correction has turned round and says nothing
  if (moved.some((w) => 1 - acceleration * w <= 0))
    return { limits: null, biasCorrection, acceleration, shares: null };
  const share = (w: number): number => normalLowerTail(biasCorrection + w / (1 - acceleration * w));
  const shares = [share(moved[0]), share(moved[1])] as const;
  return { limits: [at(shares[0]), at(shares[1])], biasCorrection, acceleration, shares };
}

function studentised(
  { estimate, standardError, replicates, standardErrors }: IntervalMaterial,
  { quantile, level }: { readonly quantile: ReplicateQuantile; readonly level: number },
): Limits | null {
  if (!standardErrors || !standardError || !(standardError > 0)) return null;
  const pivots = Float64Array.from(replicates, (value, i) => (value - estimate) / standardErrors[i]!)
    .filter(Number.isFinite)
    .sort();
  if (pivots.length < 2) return null;
  const tail = (1 - level) / 2;
  const at = (share: number): number => replicateQuantile(pivots, { share, kind: quantile });
  return [estimate - standardError * at(1 - tail), estimate - standardError * at(tail)];
}
