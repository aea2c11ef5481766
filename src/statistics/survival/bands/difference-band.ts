import { ArgumentError } from "../../shared/arguments.js";
import { normalCritical, tCritical } from "../../shared/distributions.js";
import type { Reason } from "../../shared/figure.js";
import { list, needed, number, type OptionsOf, readOptions } from "../../shared/options.js";
import { seededGenerator } from "../../shared/random.js";
import { shareFunctional } from "../functionals.js";
import { checkStandardised } from "../standardised.js";
import { differenceOfShares, type RecoveredDifference } from "../standardised-shares.js";
import { differenceInfluences, type Standardisable } from "../standardised-sums.js";
import {
  type GroupedInStrata,
  type StratumLeftOut,
  type StratumUsed,
  strataOptions,
} from "../standardised-types.js";
import { strataToUse } from "../strata-to-use.js";
import { largestOfProcess } from "./drawn-processes.js";

export const differenceBandOptions = {
  ...strataOptions,
  /** Times at which the difference is given and which the band covers, 0 to the horizon. */
  times: needed(list<readonly number[]>()),
  /** Of the random numbers; a whole number. */
  seed: needed(number("code")),
  /** Default 1000: the critical value is then good to about 0.03. */
  draws: number("positive count", 1000),
};

export interface DifferenceBandOptions extends OptionsOf<typeof differenceBandOptions> {}

/** The difference at one time, group 1 less group 0. */
export interface DifferencePoint {
  readonly time: number;
  readonly difference: number;
  readonly standardError: number;
  /** Limits of this time alone. */
  readonly lower: number;
  readonly upper: number;
  /** Limits of the band; null where there is none. */
  readonly bandLower: number | null;
  readonly bandUpper: number | null;
}

export interface DifferenceBand {
  readonly used: readonly StratumUsed[];
  readonly leftOut: readonly StratumLeftOut[];
  readonly level: number;
  readonly horizon: number;
  /** One a time, in the order asked; none where no stratum could be used. */
  readonly points: readonly DifferencePoint[];
  /** By which the standard errors are multiplied; null where there is no band. */
  readonly criticalValue: number | null;
  /** Of no difference at any of the times: the level at which the band touches 0. */
  readonly p: number | null;
  /** Independent units in the strata used. */
  readonly units: number;
  readonly draws: number;
  /** Why there is no band. */
  readonly reason: Reason | null;
}

/**
 * Difference over time of two cumulative incidences (or of two product-limit shares with the event), with a band that holds all of it at the times
 * asked for with the stated probability; standardised to one mix of strata where there are several.
 *
 * Influence of a row on the difference at t: the derivative by its weight, summed within clusters (somebody with rows in both groups counts once).
 * Multiplying the influences of each cluster by one standard normal number gives a process with the covariance of the difference; the critical value is the
 * quantile, over draws of such processes, of the largest |process| / standard error over the times. The draws are made from that covariance, which is
 * the same law. As errors of few units are themselves uncertain, it is multiplied by the quantile of Student's t on units less curves over the normal one.
 * The band has, at each time, the recovered score limits (see standardisedCurves) at the critical value: so it contains those of the time alone, lies within
 * -1 to 1 and is there also where nobody or everybody of a group has had the event. p: (1 + draws whose largest is as large as the largest z at which
 * the limits of a time touch 0) / (1 + draws).
 *
 * How often such a band holds the whole difference is measured in the README of this folder.
 *
 * @param columns as for standardisedCurves; one stratum for groups as they are
 * @returns no points with the reasons of standardisedCurves; no band with `no-variance` (`no-events`) where nothing varies, `too-few-rows` with as many curves as
 *   units
 * @throws ArgumentError naming the column and index of a value at fault, or the option
 * @source Parzen, Wei & Ying 1997, Scand J Stat 24:309; incidences: Lin 1997, Stat Med 16:901; multipliers: Lin, Fleming & Wei 1994, Biometrika 81:73
 */
export function differenceBand(columns: GroupedInStrata, options: DifferenceBandOptions): DifferenceBand {
  const asked = readOptions(differenceBandOptions, options);
  checkStandardised(columns, asked);
  const { horizon, level, times, draws, seed } = asked;
  if (draws < 100)
    throw new ArgumentError({ argument: "draws", index: null, expected: "100 or more", found: draws });
  const { input, used, leftOut, reason } = strataToUse(columns, asked);
  const common = { used, leftOut, level, horizon, draws };
  if (input === null) return { ...common, points: [], criticalValue: null, p: null, units: 0, reason };
  const found = times.map((time) => ({ time, ...differenceOfShares(input, time) }));
  const units = unitsIn(input);
  const none = (why: Reason): DifferenceBand => ({
    ...common,
    points: found.map((one) => pointOf(one, { level, criticalValue: null })),
    criticalValue: null,
    p: null,
    units,
    reason: why,
  });
  const df = units - 2 * used.length;
  if (df < 1) return none("too-few-rows");
  const influences = times.map((time) =>
    summed(
      differenceInfluences(input, (prepared) => shareFunctional(prepared, time)),
      input.clusters,
    ),
  );
  const largest = largestOfProcess(influences, { draws, generator: seededGenerator(seed, 0) });
  if (largest === null) return none(hasEvents(input, horizon) ? "no-variance" : "no-events");
  const widening = tCritical(level, df) / normalCritical(level);
  const criticalValue = widening * largest[Math.min(draws, Math.ceil(level * draws)) - 1]!;
  const seen = Math.max(...found.map(({ z }) => Math.abs(z)));
  const asLarge = largest.reduce((sum, one) => (widening * one >= seen ? sum + 1 : sum), 0);
  return {
    ...common,
    points: found.map((one) => pointOf(one, { level, criticalValue })),
    criticalValue,
    p: (1 + asLarge) / (1 + draws),
    units,
    reason: null,
  };
}

function pointOf(
  { time, estimate, standardError, limitsAt }: RecoveredDifference & { readonly time: number },
  { level, criticalValue }: { readonly level: number; readonly criticalValue: number | null },
): DifferencePoint {
  const [lower, upper] = limitsAt(normalCritical(level));
  const [bandLower, bandUpper] = criticalValue === null ? [null, null] : limitsAt(criticalValue);
  return { time, difference: estimate, standardError, lower, upper, bandLower, bandUpper };
}

/** Amounts of rows summed within clusters. */
function summed(amounts: Float64Array, { of, count }: Standardisable["clusters"]): Float64Array {
  const sums = new Float64Array(count);
  for (let row = 0; row < amounts.length; row++) sums[of[row]!]! += amounts[row]!;
  return sums;
}

function unitsIn({ clusters, strata }: Standardisable): number {
  const found = new Set<number>();
  for (const { weight, cells } of strata)
    if (weight > 0) for (const { rows } of cells) for (const row of rows) found.add(clusters.of[row]!);
  return found.size;
}

const hasEvents = ({ strata }: Standardisable, horizon: number): boolean =>
  strata.some(({ cells }) =>
    cells.some(({ prepared: { own, riskSets } }) =>
      own.some((events, i) => events > 0 && riskSets.times[i]! <= horizon),
    ),
  );
