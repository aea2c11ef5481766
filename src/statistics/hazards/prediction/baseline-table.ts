import type { Reason } from "../../shared/figure.js";
import { type HazardModel, stateOf } from "../fit/model.js";
import { moments } from "../fit/score-residuals.js";
import { checkSummedTies } from "../layout/check-columns.js";

/** What has run up by each event time of one stratum, ascending, for a row at the mean of each covariate (standardised 0). */
export interface StratumTable {
  readonly stratum: number;
  readonly times: Float64Array;
  /** Block of the layout at each time. */
  readonly blocks: Int32Array;
  /** Cumulative baseline hazard, and the sum of its increments' own variances w / denominator^2. */
  readonly hazard: Float64Array;
  readonly variance: Float64Array;
  /** For each covariate the integral of its mean over the baseline hazard. */
  readonly moments: readonly Float64Array[];
}

/** Why nothing can be built upon a fit; null: it can. */
export const fitFailure = ({ fit }: HazardModel): Reason | null =>
  fit.status === "ok" || fit.status === "collinear" ? null : fit.status;

/** @throws ArgumentError for a model with exact ties */
export function baselineTables(model: HazardModel): StratumTable[] {
  const { ties } = model.fit;
  checkSummedTies(ties);
  const state = stateOf(model, ties);
  const { layout } = model;
  const increments = layout.x.map((_, j) => moments(state, j).all);
  const variances = state.second.map((second, block) => second * state.perRisk[block]! ** 2);
  return layout.strata.map((stratum, i) => {
    const blocks: number[] = [];
    for (let block = layout.blocks - 1; block >= 0; block--)
      if (layout.blockStratum[block] === i && layout.blockEvents[block]! > 0) blocks.push(block);
    return {
      stratum,
      times: Float64Array.from(blocks, (block) => layout.blockTime[block]!),
      blocks: Int32Array.from(blocks),
      hazard: runningTotals(state.hazard, blocks),
      variance: runningTotals(variances, blocks),
      moments: increments.map((values) => runningTotals(values, blocks)),
    };
  });
}

function runningTotals(values: Float64Array, blocks: readonly number[]): Float64Array {
  let sum = 0;
  return Float64Array.from(blocks, (block) => {
    sum += values[block]!;
    return sum;
  });
}

/** A row of covariates in the caller's units on the standardised scale; covariates without an estimate count as their mean. */
export function standardisedRow(model: HazardModel, values: ArrayLike<number>): Float64Array {
  const { centre, scale } = model.layout;
  return Float64Array.from(centre, (mean, j) => (values[j]! - mean) / scale[j]!);
}

/** Log hazard of a standardised row against the mean row. */
export const logHazardOf = ({ result }: HazardModel, z: ArrayLike<number>): number =>
  result.beta.reduce((sum, b, j) => sum + (b === 0 ? 0 : b * z[j]!), 0);

/** z' V z with the robust covariance where there is one. */
export function varianceAlong({ robust, inverse }: HazardModel, z: ArrayLike<number>): number {
  const matrix = robust ?? inverse;
  const size = z.length;
  let sum = 0;
  for (let j = 0; j < size; j++) for (let k = 0; k < size; k++) sum += z[j]! * matrix[j * size + k]! * z[k]!;
  return sum;
}
