import { factorOver } from "../linear/newton.js";
import { invertFactored } from "../linear/symmetric.js";
import { ArgumentError, checkColumn, checkSameLength } from "../shared/arguments.js";
import { clusterIndex } from "../shared/clusters.js";
import { countUpTo } from "../shared/distinct-times.js";
import { normalCritical } from "../shared/distributions.js";
import type { Reason } from "../shared/figure.js";
import {
  checkColumnNames,
  list,
  type NamesOf,
  needed,
  number,
  type OptionsOf,
  readOptions,
} from "../shared/options.js";
import { layOutSubdistribution, type SubdistributionLayout } from "./subdistribution-layout.js";
import { type SubdistributionState, subdistributionLikelihood } from "./subdistribution-likelihood.js";
import { rowIntegrals, scorePulls, sumsWithin } from "./subdistribution-sandwich.js";
import type { SubdistributionColumns, SubdistributionFit } from "./subdistribution-types.js";

/** Predicted cumulative incidence at one time. */
export interface PredictedIncidence {
  readonly time: number;
  readonly incidence: number | null;
  readonly standardError: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  /** Why there is no incidence, or no interval. */
  readonly reason: Reason | null;
}

/** Why nothing can be predicted from a fit; a coefficient that is missing for being collinear counts as 0. */
function fitFailure(fit: SubdistributionFit): Reason | null {
  if (fit.baseline !== null) return null;
  return fit.status === "no-rows" || fit.status === "no-events" ? fit.status : "monotone-likelihood";
}

/** What each cluster moves the coefficients by, in standard deviations of the covariates. */
function movesOfCoefficients(
  parts: { layout: SubdistributionLayout; state: SubdistributionState },
  settings: { fit: SubdistributionFit; cluster: { of: Int32Array; count: number } },
): Float64Array[] {
  const estimated = [...settings.fit.coefficients.keys()].filter(
    (j) => settings.fit.coefficients[j] !== null,
  );
  const { size } = parts.layout;
  const inverse = invertFactored(factorOver(parts.state.information, estimated));
  const pulls = scorePulls(parts, settings.cluster);
  return Array.from({ length: size }, (_, j) => {
    const moves = new Float64Array(settings.cluster.count);
    pulls.forEach((pull, k) => {
      const by = inverse[j * size + k]!;
      for (let c = 0; c < moves.length; c++) moves[c]! += by * pull[c]!;
    });
    return moves;
  });
}

/**
 * Variance of the log cumulative hazard at a time: sum over clusters of the squared sum of what its rows move it by, through the baseline
 * (the integral of 1 / s0 by the row's martingale, the censoring curve included) and through the coefficients.
 */
function varianceOfLog(
  parts: { layout: SubdistributionLayout; state: SubdistributionState; moves: readonly Float64Array[] },
  at: { reached: number; x: readonly number[]; cluster: { of: Int32Array; count: number } },
): number {
  const { layout, state, moves } = parts;
  const { reached, x, cluster } = at;
  const hazard = state.hazard[reached - 1]!;
  const perEvent = state.increment.map((own, time) =>
    time < reached && own > 0 ? own / layout.eventsAt[time]! : 0,
  );
  const sums = sumsWithin(cluster, rowIntegrals(layout, state, { x: null, mean: null, factor: perEvent }));
  const shift = x.map((value, j) => {
    const mean = state.mean[j]!;
    let moment = 0;
    for (let time = 0; time < reached; time++) moment += state.increment[time]! * mean[time]!;
    return value - moment / hazard;
  });
  let variance = 0;
  for (let c = 0; c < cluster.count; c++) {
    let moved = sums[c]! / hazard;
    for (let j = 0; j < shift.length; j++) moved += shift[j]! * moves[j]![c]!;
    variance += moved * moved;
  }
  return variance;
}

export const predictedIncidenceQuestion = {
  /** A value for each covariate, in the order of the fit's. */
  covariates: needed(list<ArrayLike<number>>()),
  times: needed(list<ArrayLike<number>>()),
  /** Default that of the fit. */
  level: number("open share"),
};

export interface PredictedIncidenceQuestion extends OptionsOf<typeof predictedIncidenceQuestion> {}

const subdistributionIncidenceNames: NamesOf<Parameters<typeof subdistributionIncidence>[0]> = {
  columns: true,
  fit: true,
};

/**
 * Cumulative incidence that a subdistribution regression predicts for somebody with given covariates, with an interval.
 *
 * F(t | x) = 1 - exp(-H(t | x)), H the baseline cumulative hazard times exp(b' x). Variance of log H by the influence of each row (or cluster) on
 * baseline and coefficients, the estimated censoring curve included; interval: log H -+ z SE, so within 0 to 1. Rows times times asked for.
 *
 * @param source columns: the ones fitted; fit: from subdistributionRegression
 * @param options covariates: one value a covariate, in the fit's order; times: 0 or more; level: default the fit's
 * @returns one entry a time; nulls with the fit's reason, or `beyond-follow-up` after the last time of the data; before the first event 0
 *   without interval (`no-events`)
 * @throws ArgumentError naming the argument and index at fault
 * @source Fine & Gray 1999, J Am Stat Assoc 94:496
 */
export function subdistributionIncidence(
  source: { readonly columns: SubdistributionColumns; readonly fit: SubdistributionFit },
  options: PredictedIncidenceQuestion,
): PredictedIncidence[] {
  checkColumnNames(subdistributionIncidenceNames, { source });
  const { columns, fit } = source;
  const { covariates, times, level = fit.level } = readOptions(predictedIncidenceQuestion, options);
  const asked = { name: "covariates", values: covariates };
  checkSameLength(asked, { name: "the covariates of the fit", values: { length: fit.names.length } });
  checkColumn(asked, "finite");
  checkColumn({ name: "times", values: times }, "not negative");
  const z = normalCritical(level);
  const none = { incidence: null, standardError: null, lower: null, upper: null };
  const silent = fitFailure(fit);
  if (silent !== null) return Array.from(times, (time) => ({ time, ...none, reason: silent }));
  if (columns.times.length !== fit.n)
    throw new ArgumentError({
      argument: "columns",
      index: null,
      expected: `the ${fit.n} rows that were fitted`,
      found: `${columns.times.length} rows`,
    });

  const layout = layOutSubdistribution(columns, fit.cause);
  const beta = fit.coefficients.map((b, j) => (b ?? 0) * layout.scale[j]!);
  const state = subdistributionLikelihood(layout)(beta);
  const cluster = clusterIndex(columns);
  const moves = movesOfCoefficients({ layout, state }, { fit, cluster });
  const x = beta.map((_, j) => (asked.values[j]! - layout.centre[j]!) / layout.scale[j]!);
  const logRatio = x.reduce((sum, value, j) => sum + value * beta[j]!, 0);
  const last = layout.times[layout.times.length - 1]!;
  return Array.from(times, (time): PredictedIncidence => {
    if (time > last) return { time, ...none, reason: "beyond-follow-up" };
    const reached = countUpTo(layout.times, time);
    const baseline = reached === 0 ? 0 : state.hazard[reached - 1]!;
    if (baseline === 0)
      return { time, incidence: 0, standardError: 0, lower: null, upper: null, reason: "no-events" };
    const hazard = baseline * Math.exp(logRatio);
    const error = Math.sqrt(varianceOfLog({ layout, state, moves }, { reached, x, cluster }));
    return {
      time,
      incidence: -Math.expm1(-hazard),
      standardError: Math.exp(-hazard) * hazard * error,
      lower: -Math.expm1(-hazard * Math.exp(-z * error)),
      upper: -Math.expm1(-hazard * Math.exp(z * error)),
      reason: null,
    };
  });
}
