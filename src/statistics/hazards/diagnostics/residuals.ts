import type { Reason } from "../../shared/figure.js";
import { checkModel, type HazardModel, stateOf } from "../fit/model.js";
import { meanOverDenominators, scoreResiduals } from "../fit/score-residuals.js";
import { checkSummedTies } from "../layout/check-columns.js";
import { exposures } from "../likelihood/exposure.js";
import type { RiskState } from "../likelihood/risk-state.js";
import { fitFailure } from "../prediction/baseline-table.js";

/** Residuals of the events, ordered by stratum, then time, then row. */
export interface EventResiduals {
  /** Row of each event in the caller's columns, and its time. */
  readonly rows: readonly number[];
  readonly times: readonly number[];
  /** A column a covariate: the covariate less its mean over the risk set. */
  readonly residuals: readonly Float64Array[];
  /** d V r + b, V the inverse information and d the number of events: a moving picture of the coefficient over time. */
  readonly scaled: readonly Float64Array[];
}

/** Columns in the caller's row order, each row as if it weighed 1; covariates in the caller's units. */
export interface HazardResiduals {
  /** Events seen less events expected. */
  readonly martingale: Float64Array;
  /** The same made more symmetric: sign(M) sqrt(-2 (M + event log(event - M))). */
  readonly deviance: Float64Array;
  /** A column a covariate. */
  readonly score: readonly Float64Array[];
  /** Score residual times the inverse information: about how much each coefficient would change without the row, sign turned. */
  readonly dfbeta: readonly Float64Array[];
  readonly events: EventResiduals;
  readonly reason: Reason | null;
}

const nothing = (reason: Reason): HazardResiduals => ({
  martingale: new Float64Array(0),
  deviance: new Float64Array(0),
  score: [],
  dfbeta: [],
  events: { rows: [], times: [], residuals: [], scaled: [] },
  reason,
});

function devianceOf(martingale: number, event: number): number {
  const term = event === 1 ? martingale + Math.log(1 - martingale) : martingale;
  return Math.sign(martingale) * Math.sqrt(Math.max(0, -2 * term));
}

/** V r for columns of residuals, standardised. */
const moved = (columns: readonly Float64Array[], matrix: Float64Array): Float64Array[] =>
  columns.map((first, j) => {
    const sum = new Float64Array(first.length);
    columns.forEach((column, k) => {
      const v = matrix[j * columns.length + k]!;
      for (let i = 0; i < sum.length; i++) sum[i]! += v * column[i]!;
    });
    return sum;
  });

function eventResiduals(model: HazardModel, state: RiskState): EventResiduals {
  const { x, event, blockOf, blockTime, blockStart, blockEvents, blocks, blockStratum, row, scale } =
    model.layout;
  const places: number[] = [];
  // blocks stand from the last time to the first within a stratum: turn each stratum round
  for (let end = 0; end < blocks; ) {
    const start = end;
    while (end < blocks && blockStratum[end] === blockStratum[start]) end++;
    for (let block = end - 1; block >= start; block--) {
      const last = blockStart[block + 1]!;
      for (let i = last - blockEvents[block]!; i < last; i++) if (event[i] === 1) places.push(i);
    }
  }
  const plain = x.map((column, j) =>
    Float64Array.from(places, (at) => column[at]! - meanOverDenominators(state, j, blockOf[at]!)),
  );
  const turned = moved(plain, model.inverse);
  const each = (
    columns: readonly Float64Array[],
    form: (value: number, j: number) => number,
  ): Float64Array[] => columns.map((column, j) => column.map((value) => form(value, j)));
  return {
    rows: places.map((at) => row[at]!),
    times: places.map((at) => blockTime[blockOf[at]!]!),
    residuals: each(plain, (value, j) => value * scale[j]!),
    scaled: each(turned, (value, j) => (places.length * value + model.result.beta[j]!) / scale[j]!),
  };
}

/**
 * Residuals of a fitted regression: martingale, deviance, score, dfbeta, and for the events Schoenfeld's, plain and scaled.
 *
 * Martingale: event - exp(b'x) times the baseline hazard while at risk, events taking their own share of a tied time under Efron. Score:
 * the integral of (x - mean) over the martingale.
 *
 * @returns empty columns, and the reason, for a fit without finite coefficients
 * @throws ArgumentError for a model with exact ties
 * @source Therneau, Grambsch & Fleming 1990, Biometrika 77:147 (martingale, deviance, score); Schoenfeld 1982, Biometrika 69:239; Grambsch &
 *   Therneau 1994, Biometrika 81:515 (scaled)
 */
export function hazardResiduals(model: HazardModel): HazardResiduals {
  checkModel(model);
  const { ties } = model.fit;
  checkSummedTies(ties);
  const reason = fitFailure(model);
  if (reason !== null) return nothing(reason);
  const state = stateOf(model, ties);
  const { n, row, event, scale } = model.layout;
  const exposure = new Float64Array(n);
  exposures(state, exposure, null);
  const martingale = new Float64Array(n);
  const deviance = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    const seen = event[i]!;
    const residual = seen - state.ratio[i]! * exposure[i]!;
    martingale[row[i]!] = residual;
    deviance[row[i]!] = devianceOf(residual, seen);
  }
  const scores = scoreResiduals(state);
  const asGiven = (columns: readonly Float64Array[], unit: (j: number) => number): Float64Array[] =>
    columns.map((column, j) => {
      const given = new Float64Array(n);
      for (let i = 0; i < n; i++) given[row[i]!] = column[i]! * unit(j);
      return given;
    });
  return {
    martingale,
    deviance,
    score: asGiven(scores, (j) => scale[j]!),
    dfbeta: asGiven(moved(scores, model.inverse), (j) => 1 / scale[j]!),
    events: eventResiduals(model, state),
    reason: null,
  };
}
