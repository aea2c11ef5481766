import { ArgumentError, checkColumn, checkIsColumn } from "../../shared/arguments.js";
import { countUpTo } from "../../shared/distinct-times.js";
import { normalCritical } from "../../shared/distributions.js";
import type { Reason } from "../../shared/figure.js";
import { confidenceLevel, list, needed, type OptionsOf, oneOf, readOptions } from "../../shared/options.js";
import { type IntervalScale, intervalScales, limitsOfShare } from "../../survival/curve-intervals.js";
import type { HazardModel } from "../fit/model.js";
import { checkModel } from "../fit/model.js";
import { checkCovariateRow } from "./baseline-hazard.js";
import {
  baselineTables,
  fitFailure,
  logHazardOf,
  type StratumTable,
  standardisedRow,
  varianceAlong,
} from "./baseline-table.js";

export const predictedOptions = {
  /** Each a row of covariates, in the order of the model's. */
  rows: needed(list<readonly ArrayLike<number>[]>("an array of rows of covariates")),
  /** Stratum of each row, where the model has several. Left out: each row in every stratum. */
  strata: list<ArrayLike<number>>(),
  /** Default: the event times of the stratum. */
  times: list<ArrayLike<number>>(),
  /** Default 0.95. */
  level: confidenceLevel,
  /** Default "log-log". */
  interval: oneOf(intervalScales, "log-log"),
};

export interface PredictedOptions extends OptionsOf<typeof predictedOptions> {}

/** One row of covariates in one stratum; arrays go along `times`. */
export interface PredictedCurve {
  /** Place of the row in the options. */
  readonly row: number;
  readonly stratum: number;
  readonly times: readonly number[];
  readonly cumulativeHazard: readonly number[];
  /** Share without the event, exp(-cumulative hazard); its standard error and pointwise limits (null before the first event). */
  readonly notYet: readonly number[];
  readonly standardError: readonly number[];
  readonly lower: readonly (number | null)[];
  readonly upper: readonly (number | null)[];
}

export interface PredictedCurves {
  readonly curves: readonly PredictedCurve[];
  readonly level: number;
  readonly interval: IntervalScale;
  readonly reason: Reason | null;
}

function curveOf(
  model: HazardModel,
  table: StratumTable,
  asked: {
    readonly row: number;
    readonly z: Float64Array;
    readonly times: ArrayLike<number>;
    readonly half: number;
    readonly interval: IntervalScale;
  },
): PredictedCurve {
  const { z, half, interval } = asked;
  const ratio = Math.exp(logHazardOf(model, z));
  const apart = new Float64Array(z.length);
  const points = Array.from(asked.times, (time) => {
    const at = countUpTo(table.times, time) - 1;
    if (at < 0) return { hazard: 0, share: 1, error: 0, limits: null };
    const base = table.hazard[at]!;
    for (let j = 0; j < z.length; j++) apart[j] = base * z[j]! - table.moments[j]![at]!;
    const hazard = ratio * base;
    const errorOfLog = ratio * Math.sqrt(table.variance[at]! + varianceAlong(model, apart));
    const share = Math.exp(-hazard);
    return {
      hazard,
      share,
      error: share * errorOfLog,
      limits: limitsOfShare({ share, errorOfLog }, { scale: interval, z: half }),
    };
  });
  return {
    row: asked.row,
    stratum: table.stratum,
    times: Array.from(asked.times),
    cumulativeHazard: points.map(({ hazard }) => hazard),
    notYet: points.map(({ share }) => share),
    standardError: points.map(({ error }) => error),
    lower: points.map(({ limits }) => limits?.[0] ?? null),
    upper: points.map(({ limits }) => limits?.[1] ?? null),
  };
}

/**
 * Curves that the fitted regression predicts for given covariates.
 *
 * S(t | x) = exp(-H0(t) exp(b'x)). The variance of its logarithm adds that of the baseline, exp(2 b'x) times the sum of w / denominator^2,
 * and that of the coefficients, exp(2 b'x) d' V d with d = H0(t) x less the integral of the mean covariate over the baseline hazard; V is the
 * robust covariance where the model has clusters.
 *
 * @returns no curves, and the reason, for a fit without finite coefficients
 * @throws ArgumentError for a row that does not fit the model, an unknown stratum, a time that is negative, or a model with exact ties
 * @source Tsiatis 1981, Ann Stat 9:93; Link 1984, Biometrics 40:601
 */
export function predictedCurves(model: HazardModel, options: PredictedOptions): PredictedCurves {
  checkModel(model);
  const { rows, strata, times, level, interval } = readOptions(predictedOptions, options);
  const half = normalCritical(level);
  rows.forEach((values, row) => {
    checkCovariateRow(values, { name: `rows[${row}]`, size: model.fit.names.length });
  });
  if (times !== undefined) checkColumn({ name: "times", values: times }, "not negative");
  const reason = fitFailure(model);
  // a model without rows has no strata to choose from
  if (strata !== undefined && reason !== "no-rows") checkStrata(model, { strata, rows: rows.length });
  if (reason !== null) return { curves: [], level, interval, reason };
  const tables = baselineTables(model);
  const curves = rows.flatMap((values, row) => {
    const z = standardisedRow(model, values);
    const wanted = strata ? tables.filter(({ stratum }) => stratum === strata[row]) : tables;
    return wanted.map((table) =>
      curveOf(model, table, { row, z, times: times ?? table.times, half, interval }),
    );
  });
  return { curves, level, interval, reason: null };
}

function checkStrata(
  model: HazardModel,
  asked: { readonly strata: ArrayLike<number>; readonly rows: number },
): void {
  const { strata, rows } = asked;
  checkIsColumn({ name: "strata", values: strata });
  if (strata.length !== rows)
    throw new ArgumentError({
      argument: "strata",
      index: null,
      expected: `as long as rows (${rows})`,
      found: `${strata.length} values`,
    });
  for (let row = 0; row < rows; row++)
    if (!model.layout.strata.includes(strata[row]!))
      throw new ArgumentError({
        argument: "strata",
        index: row,
        expected: `one of the model's strata (${model.layout.strata.slice(0, 10).join(", ")})`,
        found: strata[row],
      });
}
