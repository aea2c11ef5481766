import type { Reason } from "../shared/figure.js";
import { checkColumnNames, type OptionsOf, oneOf, readOptions } from "../shared/options.js";
import type { Direction } from "./roc-placements.js";
import { directions } from "./roc-placements.js";
import { checkReadings, type ReadingsAndStates, readingsAndStatesNames } from "./test-accuracy.js";
import { cutsOf } from "./threshold-cuts.js";

/** One entry a point, from "nobody is positive" to "everybody is". */
export interface RocCurve {
  readonly affected: number;
  readonly healthy: number;
  /** Positive is a reading at the threshold or beyond it; null at the first point, where nobody is. */
  readonly thresholds: readonly (number | null)[];
  readonly truePositives: readonly number[];
  readonly falsePositives: readonly number[];
  /** Null throughout without affected rows, or without healthy ones for the specificity. */
  readonly sensitivity: readonly (number | null)[];
  readonly specificity: readonly (number | null)[];
  readonly direction: Direction;
  readonly reason: Reason | null;
}

export const rocCurveOptions = {
  /** Does a high or a low reading speak for the affected state? Default "high". */
  direction: oneOf(directions, "high"),
};

export interface RocCurveOptions extends OptionsOf<typeof rocCurveOptions> {}

/**
 * Sensitivity and specificity at every threshold that the readings offer. Tied readings are one point, so that a straight line between
 * points counts ties one half, as `rocArea` does.
 *
 * @param columns values and states (1 affected, 0 not), equally long
 * @returns the first point alone with `no-rows`; shares null where a state is missing (`one-group`)
 * @throws ArgumentError naming the column and index of a value at fault
 * @example
 * rocCurve({ values: [1, 2, 3], states: [0, 1, 1] }).sensitivity // => [0, 1/2, 1, 1]
 */
export function rocCurve(columns: ReadingsAndStates, options: RocCurveOptions = {}): RocCurve {
  checkColumnNames(readingsAndStatesNames, { columns });
  const { direction } = readOptions(rocCurveOptions, options);
  checkReadings(columns);
  const { thresholds, affectedAt, healthyAt, affected, healthy } = cutsOf(columns, direction);
  const truePositives = runningSums(affectedAt);
  const falsePositives = runningSums(healthyAt);
  return {
    affected,
    healthy,
    thresholds: [null, ...thresholds],
    truePositives,
    falsePositives,
    sensitivity: truePositives.map((count) => (affected > 0 ? count / affected : null)),
    specificity: falsePositives.map((count) => (healthy > 0 ? (healthy - count) / healthy : null)),
    direction,
    reason: columns.values.length === 0 ? "no-rows" : affected === 0 || healthy === 0 ? "one-group" : null,
  };
}

function runningSums(counts: Float64Array): number[] {
  let sum = 0;
  return [0, ...Array.from(counts, (count) => (sum += count))];
}
