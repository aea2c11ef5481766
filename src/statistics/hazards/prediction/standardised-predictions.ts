import { countUpTo } from "../../shared/distinct-times.js";
import { normalCritical } from "../../shared/distributions.js";
import { readOptions } from "../../shared/options.js";
import { type Difference, differenceFrom, type Ratio } from "../../survival/contrast.js";
import type { HazardModel } from "../fit/model.js";
import { checkModel } from "../fit/model.js";
import { checkSummedTies } from "../layout/check-columns.js";
import { asDoubles } from "../layout/layout.js";
import { baselineTables, fitFailure } from "./baseline-table.js";
import { covarianceOf, type Functional, functionalOf } from "./standardised-functionals.js";
import { checkOptions, checkPopulationStrata, settle } from "./standardised-population.js";
import type { StandardisedMean, StandardisedOptions, StandardisedPredictions } from "./standardised-types.js";
import { standardisedOptions } from "./standardised-types.js";

/** One step of length 1: the one that the time lies on. */
function landmarkLengths(times: Float64Array, time: number): Float64Array {
  const lengths = new Float64Array(times.length + 1);
  lengths[countUpTo(times, time)] = 1;
  return lengths;
}

/** Lengths of the steps up to the horizon. */
function stepLengths(times: Float64Array, horizon: number): Float64Array {
  const lengths = new Float64Array(times.length + 1);
  let before = 0;
  for (let i = 0; i <= times.length; i++) {
    const end = Math.min(horizon, i < times.length ? times[i]! : horizon);
    lengths[i] = Math.max(0, end - before);
    before = Math.max(before, end);
  }
  return lengths;
}

const meanFrom = (estimate: number, variance: number, level: number): StandardisedMean => {
  const standardError = Math.sqrt(Math.max(0, variance));
  const half = normalCritical(level) * standardError;
  return { estimate, standardError, lower: estimate - half, upper: estimate + half };
};

function ratioFrom(
  pair: { readonly a: number; readonly b: number; readonly varianceOfLog: number },
  level: number,
): Ratio {
  if (!(pair.a > 0 && pair.b > 0)) {
    const none = { ratio: null, standardErrorOfLog: null, lower: null, upper: null, z: null, p: null };
    return { ...none, level, reason: "not-positive" };
  }
  const ratio = pair.a / pair.b;
  const onLog = differenceFrom(
    { difference: Math.log(ratio), standardError: Math.sqrt(Math.max(0, pair.varianceOfLog)) },
    { level },
  );
  return {
    ratio,
    standardErrorOfLog: onLog.standardError,
    lower: onLog.lower === null ? null : Math.exp(onLog.lower),
    upper: onLog.upper === null ? null : Math.exp(onLog.upper),
    z: onLog.z,
    p: onLog.p,
    level,
    reason: onLog.reason,
  };
}

/**
 * Standardised curves (g-formula): the predicted share without the event, averaged over the covariates of a population, everybody set to one
 * value of a covariate; at landmarks, and as restricted means; and the contrasts between settings.
 *
 * theta(t) = mean over rows of exp(-H0(t) exp(b'x)), x with the setting's values put in. Variance by the delta method: the increments of the
 * baseline hazard, each with variance w / denominator^2, and the coefficients, the baseline moving along with them. Where the model has
 * clusters the variance is the sum over clusters of the squared influence instead. Contrasts take the covariance of their two sides in.
 * The covariates of the population count as given. Intervals are normal on the scale of the share or time itself, of ratios on the log scale.
 * Work: rows of the population times event times for a restricted mean, rows for each landmark.
 *
 * @returns no settings, and the reason, for a fit without finite coefficients or an empty population
 * @throws ArgumentError for an unknown covariate, a population that does not fit the model, or a model with exact ties
 * @source Makuch 1982, J Chronic Dis 35:437; Robins 1986, Math Model 7:1393 (g-formula); variance: Gail & Byar 1986, Biom J 28:587
 */
export function standardisedPredictions(
  model: HazardModel,
  options: StandardisedOptions,
): StandardisedPredictions {
  checkModel(model);
  const { settings, horizon, level } = readOptions(standardisedOptions, options);
  const { ties } = model.fit;
  checkSummedTies(ties);
  checkOptions(model, options);
  const times = Array.from(options.times);
  const { covariates, weights, strata } = model.columns;
  const population = options.population ?? {
    covariates,
    ...(weights && { weights }),
    ...(strata && { strata }),
  };
  const n = population.covariates.columns[0]?.length ?? 0;
  if (model.layout.strata.length > 1) checkPopulationStrata(model, population);
  const whole = population.weights ? asDoubles(population.weights).reduce((sum, w) => sum + w, 0) : n;
  const reason = fitFailure(model) ?? (whole > 0 ? null : "no-rows");
  const frame = { times, horizon: horizon ?? null, level };
  if (reason !== null) return { ...frame, beyondFollowUp: false, settings: [], contrasts: [], reason };
  const tables = baselineTables(model);
  const size = { blocks: model.layout.blocks, covariates: model.layout.size };
  const functionals: Functional[] = settings.flatMap((setting) => {
    const settled = tables.map((table) => settle(model, table, { population, setting, whole }));
    const over = (lengths: (times: Float64Array) => Float64Array): Functional =>
      functionalOf(
        settled.map((rows) => ({ rows, lengths: lengths(rows.table.times) })),
        size,
      );
    return [
      ...times.map((time) => over((steps) => landmarkLengths(steps, time))),
      ...(horizon === undefined ? [] : [over((steps) => stepLengths(steps, horizon))]),
    ];
  });
  const covariance = covarianceOf(model, ties, functionals);
  const each = times.length + (horizon === undefined ? 0 : 1);
  const value = (at: number): number => functionals[at]!.value;
  const cov = (a: number, b: number): number => covariance[a]![b]!;
  const means = (s: number): StandardisedMean[] =>
    Array.from({ length: each }, (_, k) =>
      meanFrom(value(s * each + k), cov(s * each + k, s * each + k), level),
    );
  const difference = (s: number, k: number): Difference => {
    const [a, b] = [s * each + k, k];
    const variance = cov(a, a) + cov(b, b) - 2 * cov(a, b);
    return differenceFrom(
      { difference: value(a) - value(b), standardError: Math.sqrt(Math.max(0, variance)) },
      { level },
    );
  };
  const ratio = (s: number, k: number): Ratio => {
    const [a, b] = [s * each + k, k];
    const varianceOfLog =
      cov(a, a) / value(a) ** 2 + cov(b, b) / value(b) ** 2 - (2 * cov(a, b)) / (value(a) * value(b));
    return ratioFrom({ a: value(a), b: value(b), varianceOfLog }, level);
  };
  return {
    ...frame,
    beyondFollowUp: horizon !== undefined && beyondSome(model, horizon),
    settings: settings.map(({ name }, s) => {
      const found = means(s);
      return { name, notYet: found.slice(0, times.length), restrictedMean: found[times.length] ?? null };
    }),
    contrasts: settings.slice(1).map(({ name }, i) => ({
      name,
      against: settings[0]!.name!,
      differences: times.map((_, k) => difference(i + 1, k)),
      ratios: times.map((_, k) => ratio(i + 1, k)),
      restrictedMean:
        horizon === undefined
          ? null
          : { difference: difference(i + 1, times.length), ratio: ratio(i + 1, times.length) },
    })),
    reason: null,
  };
}

/** Whether some stratum was not followed up to the horizon. */
function beyondSome({ layout, columns }: HazardModel, horizon: number): boolean {
  const last = layout.strata.map(() => Number.NEGATIVE_INFINITY);
  for (let block = 0; block < layout.blocks; block++) {
    const stratum = layout.blockStratum[block]!;
    const first = layout.row[layout.blockStart[block]!]!;
    last[stratum] = Math.max(last[stratum]!, columns.times[first]!);
  }
  return last.some((time) => time < horizon);
}
