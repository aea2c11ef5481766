import { ArgumentError } from "../../shared/arguments.js";
import { clusterIndex } from "../../shared/clusters.js";
import { normalCritical, tCritical } from "../../shared/distributions.js";
import type { Reason } from "../../shared/figure.js";
import { checkColumnNames, needed, number, type OptionsOf, readOptions } from "../../shared/options.js";
import { seededGenerator } from "../../shared/random.js";
import type { TimeToEvent } from "../../shared/time-to-event.js";
import { timeToEventNames } from "../../shared/time-to-event.js";
import { limitsOfShare } from "../curve-intervals.js";
import { productLimitOf } from "../product-limit.js";
import { prepareRiskSets } from "../risk-sets.js";
import { largestDeviations } from "./multiplied-influences.js";
import { bandLimits, bandSteps, checkOrder, type SimultaneousBand } from "./simultaneous-band.js";

export const clusteredBandOptions = {
  ...bandLimits,
  /** Of the random numbers; a whole number. */
  seed: needed(number("code")),
  /** Default 5000: the critical value is then good to about 0.01. */
  draws: number("positive count", 5000),
};

export interface ClusteredBandOptions extends OptionsOf<typeof clusteredBandOptions> {}

/** As `simultaneousBand`, without the range, which belongs to its theory. */
export interface ClusteredBand extends Omit<SimultaneousBand, "range"> {
  readonly clusters: number;
  readonly draws: number;
  /** What few clusters multiply the critical value by, which has it in it already: Student's quantile over the normal one. */
  readonly widening: number | null;
}

/**
 * Band that holds the whole product-limit curve between two times with the stated probability, where several rows belong together:
 * pointwise limits with the clustered error, widened alike.
 *
 * The critical value is the quantile, over draws of a normal number for each cluster, of the largest |sum of the numbers times the
 * clusters' influences on log S(t)| / SE(t) between the two times: the influences carry the dependence of the curve on itself and of
 * the rows of a cluster on each other, which the theory of independent rows has no place for. Without clusters it comes to Nair's value. It is
 * then multiplied by t / z, the quantiles of Student's t on clusters - 1 degrees of freedom and of the normal law, as the errors of few clusters are
 * themselves uncertain; how often such a band holds is measured in tests/honesty.
 *
 * @param columns as for productLimit; without clusters each row is its own
 * @param options seed, draws; scale, level, from and to as for simultaneousBand
 * @returns an empty band with a reason as simultaneousBand, or `too-few-rows` with one cluster
 * @throws ArgumentError naming the column and index, the option at fault, or `to` before `from`
 * @source Lin, Fleming & Wei 1994, Biometrika 81:73 (multipliers); clusters: Spiekerman & Lin 1998, J Am Stat Assoc 93:1164
 */
export function clusteredBand(columns: TimeToEvent, options: ClusteredBandOptions): ClusteredBand {
  checkColumnNames(timeToEventNames, { columns });
  const { seed, draws, scale, level, ...reach } = readOptions(clusteredBandOptions, options);
  checkOrder(reach);
  if (draws < 100)
    throw new ArgumentError({ argument: "draws", index: null, expected: "100 or more", found: draws });
  const generator = seededGenerator(seed, 0);
  const riskSets = prepareRiskSets(columns);
  const curve = productLimitOf({ columns, riskSets }, { variance: "robust" });
  const clusters = clusterIndex(columns).count;
  const found = bandSteps(curve, reach);
  const common = { kind: "equal-precision", scale, level, clusters, draws } as const;
  const none = (reason: Reason): ClusteredBand => ({
    times: [],
    notYet: [],
    lower: [],
    upper: [],
    criticalValue: null,
    widening: null,
    ...common,
    reason,
  });
  if (typeof found === "string") return none(found);
  if (clusters < 2) return none("too-few-rows");
  const errorOfLog = curve.notYet.map((share, i) => (share > 0 ? (curve.standardError[i] ?? 0) / share : 0));
  const largest = largestDeviations({ columns, riskSets, errorOfLog }, { ...found, draws, generator });
  const drawn = largest.sort()[Math.min(draws, Math.ceil(level * draws)) - 1]!;
  if (!(drawn > 0)) return none("no-variance");
  const widening = tCritical(level, clusters - 1) / normalCritical(level);
  const criticalValue = drawn * widening;
  const listed = curve.times
    .map((_, i) => i)
    .filter((index) => index >= found.first && index <= found.last)
    .filter((index) => curve.times[index]! >= (reach.from ?? 0));
  const limits = listed.map((index) => {
    const share = curve.notYet[index]!;
    const point = { share, errorOfLog: criticalValue * errorOfLog[index]! };
    // rows that cancel within their cluster leave nothing that varies
    return limitsOfShare(point, { scale, z: 1 }) ?? [share, share];
  });
  return {
    times: listed.map((index) => curve.times[index]!),
    notYet: listed.map((index) => curve.notYet[index]!),
    lower: limits.map(([lower]) => lower as number),
    upper: limits.map(([, upper]) => upper as number),
    criticalValue,
    widening,
    ...common,
    reason: null,
  };
}
