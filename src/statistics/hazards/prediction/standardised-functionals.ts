import { type HazardModel, stateOf } from "../fit/model.js";
import { sortedClusters, sumsWithin } from "../fit/sandwich.js";
import { scoreResiduals } from "../fit/score-residuals.js";
import type { SummedTies } from "../layout/ties.js";
import { addCrossProducts, mirror } from "../likelihood/cross-products.js";
import { spreadOverRows } from "../likelihood/exposure.js";
import type { RiskState } from "../likelihood/risk-state.js";
import type { StratumTable } from "./baseline-table.js";

/** Rows of one stratum of the population under one setting, standardised, with their shares of the population. */
export interface SettledRows {
  readonly table: StratumTable;
  /** Share of the population and exp(b'z) of each row. */
  readonly share: Float64Array;
  readonly ratio: Float64Array;
  /** Covariates as columns. */
  readonly z: readonly Float64Array[];
}

/**
 * A mean over the population of something of the predicted curves, with its derivatives: by each increment of the baseline hazard (a block of
 * the layout; sign turned) and by the coefficients, the baseline moving along with them.
 */
export interface Functional {
  readonly value: number;
  readonly gains: Float64Array;
  readonly slope: Float64Array;
}

/** Mean over the rows at one event time: of S, of S exp(b'z), and of S exp(b'z) z. */
interface MeansAt {
  share: number;
  pull: number;
  readonly moments: Float64Array;
}

function meansAt(rows: SettledRows, at: number, into: MeansAt): void {
  const { share, ratio, z, table } = rows;
  const hazard = at < 0 ? 0 : table.hazard[at]!;
  into.share = 0;
  into.pull = 0;
  into.moments.fill(0);
  for (let row = 0; row < share.length; row++) {
    const e = ratio[row]!;
    const mean = share[row]! * Math.exp(-hazard * e);
    into.share += mean;
    into.pull += mean * e;
    for (let j = 0; j < z.length; j++) into.moments[j]! += mean * e * z[j]![row]!;
  }
}

/**
 * The integral over time of the mean share from 0 to the horizon, or the share at one time: the sum over the steps of the curve of the mean
 * share times the length of the step.
 *
 * @param lengths of the step before the first event time and after each, one more than event times; a share has one step of length 1
 */
export function functionalOf(
  strata: readonly { readonly rows: SettledRows; readonly lengths: Float64Array }[],
  size: { readonly blocks: number; readonly covariates: number },
): Functional {
  const gains = new Float64Array(size.blocks);
  const slope = new Float64Array(size.covariates);
  const means: MeansAt = { share: 0, pull: 0, moments: new Float64Array(size.covariates) };
  let value = 0;
  for (const { rows, lengths } of strata) {
    const { table } = rows;
    let gain = 0;
    for (let i = table.times.length - 1; i >= -1; i--) {
      const length = lengths[i + 1]!;
      if (length > 0) {
        meansAt(rows, i, means);
        value += length * means.share;
        if (i >= 0) {
          gain += length * means.pull;
          const hazard = table.hazard[i]!;
          for (let j = 0; j < slope.length; j++)
            slope[j]! -= length * (hazard * means.moments[j]! - table.moments[j]![i]! * means.pull);
        }
      }
      if (i >= 0) gains[table.blocks[i]!] = gain;
    }
  }
  return { value, gains, slope };
}

/** Covariance of functionals from the model: increments of the baseline are independent of each other and of the coefficients. */
function modelCovariance(
  model: HazardModel,
  state: RiskState,
  functionals: readonly Functional[],
): number[][] {
  const variance = state.second.map((second, block) => second * state.perRisk[block]! ** 2);
  const { size } = model.layout;
  const alongCoefficients = (a: Functional, b: Functional): number => {
    let sum = 0;
    for (let j = 0; j < size; j++)
      for (let k = 0; k < size; k++) sum += a.slope[j]! * model.inverse[j * size + k]! * b.slope[k]!;
    return sum;
  };
  return functionals.map((a) =>
    functionals.map((b) => {
      let sum = alongCoefficients(a, b);
      for (let block = 0; block < variance.length; block++)
        sum += a.gains[block]! * b.gains[block]! * variance[block]!;
      return sum;
    }),
  );
}

/** Influence of each sorted row on a functional: through the baseline, and through the coefficients. */
function influenceOf(
  state: RiskState,
  functional: Functional,
  dfbeta: readonly Float64Array[],
): Float64Array {
  const { layout, ratio, second, shift, perRisk, hazard } = state;
  const { n, event, blockOf, blockEventWeight } = layout;
  const { gains, slope } = functional;
  const all = gains.map((gain, block) => gain * second[block]! * perRisk[block]! ** 2);
  const own = all.map((value, block) => value * (1 - shift[block]!));
  const influence = new Float64Array(n);
  spreadOverRows(layout, { all, own }, influence);
  for (let i = 0; i < n; i++) {
    const block = blockOf[i]!;
    const seen = event[i] === 1 ? (gains[block]! * hazard[block]!) / blockEventWeight[block]! : 0;
    influence[i] = ratio[i]! * influence[i]! - seen;
    dfbeta.forEach((column, j) => {
      influence[i]! += slope[j]! * column[i]!;
    });
  }
  return influence;
}

/** Covariance of functionals as the sum over clusters of the products of their influences. */
function clusteredCovariance(
  model: HazardModel,
  state: RiskState,
  functionals: readonly Functional[],
): number[][] {
  const { layout, inverse, columns } = model;
  const { size, n } = layout;
  const scores = scoreResiduals(state);
  const dfbeta = scores.map((_, j) => {
    const sum = new Float64Array(n);
    scores.forEach((column, k) => {
      const v = inverse[j * size + k]!;
      for (let i = 0; i < n; i++) sum[i]! += v * column[i]!;
    });
    return sum;
  });
  const clusters = sortedClusters(columns, layout.row);
  const influences = functionals.map((functional) => influenceOf(state, functional, dfbeta));
  const sums = sumsWithin(influences, clusters, layout.weight);
  const whole = functionals.length;
  const matrix = new Float64Array(whole * whole);
  addCrossProducts(matrix, sums, {
    weights: new Float64Array(clusters.count).fill(1),
    rows: clusters.count,
    factor: 1,
  });
  mirror(matrix, whole);
  return functionals.map((_, a) => functionals.map((__, b) => matrix[a * whole + b]!));
}

/** Covariance of functionals: by the model, or summed within clusters where the model has them. */
export function covarianceOf(
  model: HazardModel,
  ties: SummedTies,
  functionals: readonly Functional[],
): number[][] {
  const state = stateOf(model, ties);
  return model.columns.clusters
    ? clusteredCovariance(model, state, functionals)
    : modelCovariance(model, state, functionals);
}
