import { ArgumentError } from "../shared/arguments.js";
import {
  checkColumnNames,
  type NamesOf,
  needed,
  number,
  type OptionsOf,
  readOptions,
} from "../shared/options.js";
import { seededGenerator } from "../shared/random.js";
import {
  countDrawer,
  prepareResampling,
  type ResampledRows,
  type ResamplingPlan,
  rowsOfCounts,
} from "./plan.js";

/** What a statistic gives: a number, none, or a number with its standard error (for the studentised interval). */
export type StatisticValue =
  | number
  | null
  | { readonly estimate: number | null; readonly standardError: number | null };

/**
 * A figure of a resample. From counts: how often each row of the data counts, so that rows sorted once need never be sorted again.
 * From rows: the places of the drawn rows, ascending, repeated as drawn. Both must give the same whatever the order of rows. The arrays
 * belong to the engine and are overwritten.
 */
export type Statistic =
  | { readonly ofCounts: (counts: Float64Array) => StatisticValue }
  | { readonly ofRows: (rows: Int32Array) => StatisticValue };

/** Data to resample and the figure wanted. */
export interface BootstrapSample extends ResampledRows {
  readonly statistic: Statistic;
}

export const bootstrapSampleNames: NamesOf<BootstrapSample> = {
  statistic: true,
  n: true,
  clusters: true,
  strata: true,
};

/** One entry a resample; NaN where the statistic gave none. */
export interface Replicates {
  readonly estimates: Float64Array;
  /** NaN where none was given. */
  readonly standardErrors: Float64Array;
}

export const applied = (statistic: Statistic, counts: Float64Array): [number, number] => {
  const value = "ofCounts" in statistic ? statistic.ofCounts(counts) : statistic.ofRows(rowsOfCounts(counts));
  const { estimate, standardError } =
    value === null || typeof value === "number" ? { estimate: value, standardError: null } : value;
  return [finiteOr(estimate), finiteOr(standardError)];
};

const finiteOr = (value: number | null): number =>
  value === null || !Number.isFinite(value) ? Number.NaN : value;

export const replicatesOptions = {
  /** Whole number. */
  seed: needed(number("code")),
  /** Number of the first resample. */
  from: needed(number("count")),
  /** Number after that of the last one. */
  to: needed(number("count")),
};

export interface ReplicatesOptions extends OptionsOf<typeof replicatesOptions> {}

/**
 * Resamples number `from` to before `to` of a seed.
 *
 * Resample r is drawn from stream r of the seed and from nothing else: a span can be taken anywhere, on any worker, and the spans put
 * together are the same numbers.
 *
 * @throws ArgumentError naming the column and index at fault, the seed or the span
 */
export function bootstrapReplicates(sample: BootstrapSample, options: ReplicatesOptions): Replicates {
  checkColumnNames(bootstrapSampleNames, { sample });
  const span = readOptions(replicatesOptions, options);
  return replicatesOf({ plan: prepareResampling(sample), statistic: sample.statistic }, span);
}

/** The same from a plan made already. */
export function replicatesOf(
  { plan, statistic }: { readonly plan: ResamplingPlan; readonly statistic: Statistic },
  { seed, from, to }: ReplicatesOptions,
): Replicates {
  if (to < from)
    throw new ArgumentError({ argument: "to", index: null, expected: `at least from, ${from}`, found: to });
  const draw = countDrawer(plan);
  const counts = new Float64Array(plan.n);
  const estimates = new Float64Array(to - from);
  const standardErrors = new Float64Array(to - from);
  for (let i = 0; i < estimates.length; i++) {
    draw(seededGenerator(seed, from + i), counts);
    const [estimate, error] = applied(statistic, counts);
    estimates[i] = estimate;
    standardErrors[i] = error;
  }
  return { estimates, standardErrors };
}

/** The statistic without each unit (row or person) in turn. */
export function leaveOneOut({
  plan,
  statistic,
}: {
  readonly plan: ResamplingPlan;
  readonly statistic: Statistic;
}): Float64Array {
  const { n, units, unitOfRow } = plan;
  const counts = new Float64Array(n);
  return Float64Array.from({ length: units }, (_, unit) => {
    for (let row = 0; row < n; row++) counts[row] = unitOfRow[row] === unit ? 0 : 1;
    return applied(statistic, counts)[0];
  });
}
