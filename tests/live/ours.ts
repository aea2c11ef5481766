import {
  type Curve,
  cumulativeIncidence,
  type HazardColumns,
  hazardsRegression,
  type IntervalScale,
  linearRegression,
  logRank,
  pairedMeanChange,
  productLimit,
  type QuantileTime,
  quantileTime,
  restrictedMean,
  shareAt,
  type TimeToEvent,
  welch,
  wilson,
} from "../../src/statistics/index.js";
import type { DataSet } from "./draw-sets.js";

/** A figure by name; null where our function gives none, absent where it is not to be compared. Lists are numbered: `notYet/3`. */
export type Figures = ReadonlyMap<string, number | null>;
type Value = number | null | readonly (number | null)[];

function named(parts: Readonly<Record<string, Value>>): Figures {
  const figures = new Map<string, number | null>();
  for (const [name, value] of Object.entries(parts)) {
    if (typeof value === "number" || value === null) figures.set(name, value);
    else if (value.length === 1) figures.set(name, value[0] as number | null);
    else value.forEach((one, at) => void figures.set(`${name}/${at}`, one));
  }
  return figures;
}

function timesOf(data: DataSet): TimeToEvent {
  return {
    times: data.time,
    events: data.event,
    ...(data.entry && { entries: data.entry }),
    ...(data.weight && { weights: data.weight }),
    ...(data.cluster && { clusters: data.cluster }),
  };
}

/** Every k-th distinct time and the last, at most about a dozen; the reference script takes the same ones. */
function shown<T>(values: readonly T[]): readonly T[] {
  const step = Math.max(1, Math.ceil(values.length / 12));
  return values.filter((_, at) => at % step === 0 || at === values.length - 1);
}

const scales: readonly IntervalScale[] = ["plain", "log", "log-log", "logit", "arcsine"];

function curves(data: DataSet): Figures {
  const columns = timesOf(data);
  const limits = scales.flatMap((interval) => {
    const curve = productLimit(columns, { interval });
    return [
      [`lower:${interval}`, shown(curve.lower)],
      [`upper:${interval}`, shown(curve.upper)],
    ];
  });
  const curve = productLimit(columns);
  return named({
    time: shown(curve.times),
    notYet: shown(curve.notYet),
    standardError: shown(curve.standardError),
    atRisk: shown(curve.times).map((time) => shareAt(curve, time).atRisk),
    ...Object.fromEntries(limits),
    ...(curve.reachedZeroEarly ? {} : quantilesOf(curve)),
  });
}

function quantilesOf(curve: Curve): Readonly<Record<string, Value>> {
  const quantiles = [0.25, 0.5, 0.75].map((p) => quantileTime(curve, p, { flatStep: "middle" }));
  return {
    quantile: quantiles.map(({ estimate }) => estimate.value),
    ...(fallsSteadily(curve.lower) ? limitsOf(quantiles, "lower") : {}),
    ...(fallsSteadily(curve.upper) ? limitsOf(quantiles, "upper") : {}),
  };
}

/** Limits of quantiles, and whether each is missing for want of a variance. */
function limitsOf(quantiles: readonly QuantileTime[], side: "lower" | "upper"): Record<string, Value> {
  const name = side === "lower" ? "quantileLower" : "quantileUpper";
  const limits = quantiles.map((quantile) => quantile[side]);
  return {
    [name]: limits.map(({ value }) => value),
    [`withoutVariance:${name}`]: limits.map((limit) =>
      limit.value === null && limit.reason === "no-variance" ? 1 : 0,
    ),
  };
}

/**
 * Late entry and clustered variances can let a limit rise again. Then ours is the first time at which it is low enough, while
 * the reference sorts the limit's values, as if they fell: not compared. Nor where a limit is missing between others.
 */
function fallsSteadily(limits: readonly (number | null)[]): boolean {
  const first = limits.findIndex((limit) => limit !== null);
  const last = limits.findLastIndex((limit) => limit !== null);
  return (
    first >= 0 &&
    limits
      .slice(first, last + 1)
      .every((limit, at, own) => limit !== null && limit <= (own[at - 1] ?? 1) + 1e-12)
  );
}

function restricted(data: DataSet): Figures {
  const { estimate, standardError } = restrictedMean(timesOf(data), { horizon: data.horizon });
  return named({ estimate, standardError });
}

function rankTests(data: DataSet): Figures {
  const columns = {
    times: data.time,
    events: data.event,
    groups: data.group,
    ...(data.entry && { entries: data.entry }),
    ...(data.stratum && { strata: data.stratum }),
  };
  const parts = [0, 0.5, 1].flatMap((rho) => {
    const test = logRank(columns, { weight: { rho } });
    return [
      [`chiSquare:${rho}`, test.chiSquare],
      [`observed:${rho}`, test.observed],
      [`expected:${rho}`, test.expected],
    ];
  });
  return named(Object.fromEntries(parts));
}

function hazards(data: DataSet, ties: "efron" | "breslow"): Figures {
  const columns: HazardColumns = {
    ...timesOf(data),
    ...(data.stratum && { strata: data.stratum }),
    covariates: { names: ["x1", "x2", "x3"], columns: [data.x1, data.x2, data.x3] },
  };
  const fit = hazardsRegression(columns, { ties });
  const robust = fit.robustStandardErrors;
  // few events, or clusters that leave the sandwich nothing but rounding: its inverse is noise
  const isRounding =
    fit.events < 12 || robust?.some((error, j) => (error ?? 1) < 1e-4 * (fit.standardErrors[j] ?? 1));
  return named({
    rises: fit.status === "monotone-likelihood" ? 1 : 0,
    weighted: data.weight ? 1 : 0,
    converged: fit.converged ? 1 : 0,
    gradient: fit.finalGradient,
    coefficient: fit.coefficients,
    standardError: fit.standardErrors,
    ...(robust && { robustStandardError: robust }),
    ...(fit.robustWald && !isRounding ? { robustWald: fit.robustWald.statistic } : {}),
    wald: fit.wald.statistic,
    logLikelihoodNull: fit.logLikelihoodNull,
    logLikelihood: fit.logLikelihood,
    score: fit.score.statistic,
  });
}

function incidence(data: DataSet): Figures {
  const found = cumulativeIncidence({ times: data.time, causes: data.cause });
  const parts = found.causes.flatMap(({ cause, incidence: share, standardError }) => [
    [`incidence:${cause === 1 ? "one" : "two"}`, shown(share)],
    [`standardError:${cause === 1 ? "one" : "two"}`, shown(standardError)],
  ]);
  return named(Object.fromEntries(parts));
}

function linear(data: DataSet): Figures {
  const columns = {
    response: data.y,
    covariates: { names: ["x1", "x2", "x3"], columns: [data.x1, data.x2, data.x3] },
  };
  const fit = linearRegression(columns, { variance: "classical" });
  const clustered = data.cluster && linearRegression({ ...columns, clusters: data.cluster });
  return named({
    coefficient: fit.coefficients,
    standardError: fit.standardErrors,
    f: fit.f.statistic,
    standardErrorHc3: linearRegression(columns, { variance: "hc3" }).standardErrors,
    ...(clustered && { standardErrorClustered: clustered.standardErrors }),
  });
}

function means(data: DataSet): Figures {
  const side = (one: boolean) => data.y.filter((_, row) => (data.group[row] === 1) === one);
  const found = welch(side(true), side(false));
  const pairs = pairedMeanChange({ before: data.x1, after: data.y });
  return named({
    t: found.t,
    df: found.df,
    limits: [found.lower, found.upper],
    pairedT: pairs.t,
    pairedLimits: [pairs.lower, pairs.upper],
  });
}

function share(data: DataSet): Figures {
  const { lower, upper } = wilson(
    data.event.reduce((sum, one) => sum + one, 0),
    data.event.length,
  );
  return named({ limits: [lower, upper] });
}

/** Our figures by method, under the names that the reference script uses. */
export const methods: Readonly<Record<string, (data: DataSet) => Figures>> = {
  "product limit": curves,
  "restricted mean": restricted,
  "log-rank": rankTests,
  "hazards, Efron ties": (data) => hazards(data, "efron"),
  "hazards, Breslow ties": (data) => hazards(data, "breslow"),
  "cumulative incidence": incidence,
  "linear regression": linear,
  "two means": means,
  proportion: share,
};
