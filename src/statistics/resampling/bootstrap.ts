import type { Reason } from "../shared/figure.js";
import { checkColumnNames, needed, number, type OptionsOf, oneOf, readOptions } from "../shared/options.js";
import { type BootstrapIntervals, bootstrapIntervals, intervalOptions } from "./intervals.js";
import { prepareResampling } from "./plan.js";
import {
  applied,
  type BootstrapSample,
  bootstrapSampleNames,
  leaveOneOut,
  replicatesOf,
} from "./replicates.js";

export const bootstrapOptions = {
  ...intervalOptions,
  /** Whole number. */
  seed: needed(number("code")),
  /** Default 2,000. */
  replicates: number("count", 2000),
  /** Default "automatic": the acceleration of BCa by leaving out each unit in turn, up to 5,000 units; beyond that it is taken as 0. */
  acceleration: oneOf(["automatic", "jackknife", "none"], "automatic"),
};

export interface BootstrapOptions extends OptionsOf<typeof bootstrapOptions> {}

/** Bootstrap of one figure; `intervals` is null where the data themselves give none. */
export interface Bootstrap {
  readonly estimate: number | null;
  readonly intervals: BootstrapIntervals | null;
  /** Rows or persons drawn. */
  readonly units: number;
  readonly acceleration: "jackknife" | "none";
  readonly seed: number;
  readonly reason: Reason | null;
}

/** With more units the acceleration, of the order of 1 / (6 sqrt(units)), is below 0.003 times the skewness of their influence. */
const mostLeftOut = 5000;

/**
 * Bootstrap of any figure: rows, or persons with all their rows, drawn with replacement, within strata where they are given.
 *
 * Resample r is drawn from stream r of the seed: neither the order of resamples nor the number of workers can change a result.
 *
 * @param sample number of rows, clusters and strata, and the statistic of counts or of rows
 * @returns null with `no-rows`; `too-few-rows` for a single unit or where the statistic has no value on the data themselves
 * @throws ArgumentError naming the column and index at fault, the seed, the number of replicates or the level
 * @source Efron 1979, Ann Stat 7:1; persons and strata: Davison & Hinkley 1997, Bootstrap Methods and their Application, chapter 3
 * @example
 * const values = [3, 5, 8, 13];
 * const mean = (counts) => counts.reduce((sum, count, row) => sum + count * values[row], 0) / 4;
 * bootstrap({ n: 4, statistic: { ofCounts: mean } }, { seed: 1 }).estimate // => 7.25
 */
export function bootstrap(sample: BootstrapSample, options: BootstrapOptions): Bootstrap {
  checkColumnNames(bootstrapSampleNames, { sample });
  const { seed, replicates, acceleration, ...ofIntervals } = readOptions(bootstrapOptions, options);
  const plan = prepareResampling(sample);
  const work = { plan, statistic: sample.statistic };
  const leaves = acceleration === "jackknife" || (acceleration === "automatic" && plan.units <= mostLeftOut);
  const common = { units: plan.units, acceleration: leaves ? "jackknife" : "none", seed } as const;
  if (plan.n === 0) return { ...common, estimate: null, intervals: null, reason: "no-rows" };
  const [estimate, standardError] = applied(sample.statistic, new Float64Array(plan.n).fill(1));
  if (Number.isNaN(estimate)) return { ...common, estimate: null, intervals: null, reason: "too-few-rows" };
  if (plan.units < 2) return { ...common, estimate, intervals: null, reason: "too-few-rows" };
  const drawn = replicatesOf(work, { seed, from: 0, to: replicates });
  const intervals = bootstrapIntervals(
    {
      estimate,
      standardError: Number.isNaN(standardError) ? null : standardError,
      replicates: drawn.estimates,
      standardErrors: drawn.standardErrors,
      ...(leaves && { jackknife: leaveOneOut(work) }),
    },
    ofIntervals,
  );
  return { ...common, estimate, intervals, reason: intervals.reason };
}
