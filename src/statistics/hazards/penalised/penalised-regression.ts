import { factorAtZero } from "../../linear/newton.js";
import { nothingTested } from "../../shared/covariates.js";
import { chiSquareQuantile } from "../../shared/distributions.js";
import type { Reason, TestResult } from "../../shared/figure.js";
import {
  checkColumnNames,
  confidenceLevel,
  type OptionsOf,
  oneOf,
  readOptions,
} from "../../shared/options.js";
import { rootBetween } from "../../shared/root.js";
import { chiSquareTest, onOriginalScale } from "../fit/describe-fit.js";
import { checkHazardColumns } from "../layout/check-columns.js";
import type { HazardStatus } from "../layout/hazard-fit.js";
import { layOut } from "../layout/layout.js";
import { type HazardColumns, hazardColumnsNames } from "../layout/sorted-rows.js";
import type { SummedTies } from "../layout/ties.js";
import { summedTieMethods } from "../layout/ties.js";
import { likelihoodOf } from "../likelihood/likelihood.js";
import { type PenalisedMaximum, penalisedMaximum } from "./penalised-maximum.js";
import { type Penalised, penalisedEvaluator } from "./penalty.js";

export const penalisedOptions = {
  /** Default "efron". */
  ties: oneOf(summedTieMethods, "efron"),
  /** Default 0.95. */
  level: confidenceLevel,
};

export interface PenalisedOptions extends OptionsOf<typeof penalisedOptions> {}

/** The interval is by profile, the test by the penalised likelihood ratio against a coefficient of 0; null where there is no estimate. */
export interface PenalisedRatio {
  readonly name: string;
  readonly estimate: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  readonly statistic: number | null;
  readonly p: number | null;
  readonly reason: Reason | null;
}

/** Arrays are in the order of the covariates; null where the covariate is collinear or there is nothing to fit. */
export interface PenalisedHazardFit {
  readonly names: readonly string[];
  readonly coefficients: readonly (number | null)[];
  /** From the inverse information, not penalised, at the penalised estimate. */
  readonly standardErrors: readonly (number | null)[];
  readonly covariance: readonly (readonly (number | null)[])[];
  /** Limits of each coefficient by profile. */
  readonly profile: readonly { readonly lower: number | null; readonly upper: number | null }[];
  readonly hazardRatios: readonly PenalisedRatio[];
  /** All coefficients 0 against the estimate, the penalty from the whole information at both. */
  readonly likelihoodRatio: TestResult;
  readonly logLikelihoodNull: number | null;
  readonly logLikelihood: number | null;
  readonly iterations: number;
  readonly converged: boolean;
  /** Largest absolute first derivative of the penalised log-likelihood at the end, covariates in standard deviations. */
  readonly finalGradient: number | null;
  readonly n: number;
  readonly events: number;
  readonly ties: SummedTies;
  readonly level: number;
  readonly status: Exclude<HazardStatus, "monotone-likelihood">;
}

interface Profiled {
  readonly evaluate: (beta: ArrayLike<number>) => Penalised;
  readonly best: PenalisedMaximum;
  readonly estimable: readonly number[];
}

/** Twice the fall of the penalised log-likelihood from its maximum with one coefficient held at a value. */
function fallAt(
  { evaluate, best, estimable }: Profiled,
  held: { readonly j: number; readonly value: number },
): number {
  const beta = best.beta.slice();
  beta[held.j] = held.value;
  const free = estimable.filter((k) => k !== held.j);
  return 2 * (best.logLikelihood - penalisedMaximum(evaluate, { beta, free }).logLikelihood);
}

/** Where the fall reaches the critical value on one side of the estimate; null where it does not within a thousand standard errors. */
function limitOf(
  profiled: Profiled,
  wanted: { readonly j: number; readonly side: -1 | 1; readonly critical: number },
): number | null {
  const { j, side, critical } = wanted;
  const { best } = profiled;
  const middle = best.beta[j]!;
  const error = Math.sqrt(best.inverse[j * best.beta.length + j]!);
  const excess = (distance: number): number =>
    fallAt(profiled, { j, value: middle + side * distance }) - critical;
  let inside = 0;
  for (let distance = error; distance < 1000 * error; distance *= 1.6) {
    if (excess(distance) >= 0) return middle + side * rootBetween(excess, [inside, distance]);
    inside = distance;
  }
  return null;
}

/**
 * Proportional-hazards regression by penalised likelihood: l(b) + log det I(b) / 2. It takes the first-order bias off the estimates and has a
 * finite maximum where the ordinary likelihood rises for ever (a group without events), so it serves small samples and few events.
 *
 * Intervals by profile: the values at which twice the fall of the penalised log-likelihood, all other coefficients being fitted again, stays
 * below the chi-square quantile with 1 degree of freedom. Tests of single coefficients and of all by the same ratio. Ties by Efron
 * (default) or Breslow, in likelihood and penalty alike; strata, weights, delayed entry and start-stop rows as in hazardsRegression. Clusters
 * are not used: there is no robust form.
 *
 * Degenerate data: nulls with `no-rows`, `no-events`, `collinear`. A limit that is not reached within a thousand standard errors is null.
 *
 * @throws ArgumentError as hazardsRegression, and for exact ties
 * @source Heinze & Schemper 2001, Biometrics 57:114; Firth 1993, Biometrika 80:27; profile: Heinze & Ploner 2002, Comput Methods Programs
 *   Biomed 67:217
 */
export function penalisedHazardsRegression(
  columns: HazardColumns,
  options: PenalisedOptions = {},
): PenalisedHazardFit {
  checkColumnNames(hazardColumnsNames, { columns });
  const { ties, level } = readOptions(penalisedOptions, options);
  checkHazardColumns(columns);
  const layout = layOut(columns);
  const { size, scale, n, events, eventWeight } = layout;
  const { names } = columns.covariates;
  const silent = n === 0 ? "no-rows" : eventWeight === 0 ? "no-events" : null;
  const zero = new Float64Array(size);
  const estimable = silent
    ? []
    : factorAtZero(likelihoodOf(layout, ties)(zero, "all").information, eventWeight).kept;
  if (estimable.length === 0) {
    const reason = silent ?? "collinear";
    return noFit(names, { reason, n, events, ties, level });
  }
  const evaluate = penalisedEvaluator(layout, { ties, over: estimable });
  const start = evaluate(zero);
  const best = penalisedMaximum(evaluate, { beta: zero, free: estimable });
  const profiled = { evaluate, best, estimable };
  const critical = chiSquareQuantile(level, 1);
  const covariance = onOriginalScale(best.inverse, { scale, finite: estimable });
  const inUnits = (value: number | null, j: number): number | null =>
    value === null ? null : value / scale[j]!;
  const has = (j: number): boolean => estimable.includes(j);
  const coefficients = names.map((_, j) => (has(j) ? inUnits(best.beta[j]!, j) : null));
  const profile = names.map((_, j) => ({
    lower: has(j) ? inUnits(limitOf(profiled, { j, side: -1, critical }), j) : null,
    upper: has(j) ? inUnits(limitOf(profiled, { j, side: 1, critical }), j) : null,
  }));
  const tests = names.map((_, j) =>
    has(j)
      ? chiSquareTest(Math.max(0, fallAt(profiled, { j, value: 0 })), 1, "collinear")
      : chiSquareTest(null, 0, "collinear"),
  );
  const ratio = (value: number | null | undefined): number | null => (value == null ? null : Math.exp(value));
  return {
    names,
    coefficients,
    standardErrors: covariance.map((row, j) => (row[j] == null ? null : Math.sqrt(row[j]))),
    covariance,
    profile,
    hazardRatios: names.map((name, j) => ({
      name,
      estimate: ratio(coefficients[j]),
      lower: ratio(profile[j]?.lower),
      upper: ratio(profile[j]?.upper),
      statistic: tests[j]?.statistic ?? null,
      p: tests[j]?.p ?? null,
      reason: has(j) ? null : "collinear",
    })),
    likelihoodRatio: chiSquareTest(
      Math.max(0, 2 * (best.logLikelihood - start.logLikelihood)),
      estimable.length,
      nothingTested(names),
    ),
    logLikelihoodNull: start.logLikelihood,
    logLikelihood: best.logLikelihood,
    iterations: best.iterations,
    converged: best.converged,
    finalGradient: estimable.reduce((most, j) => Math.max(most, Math.abs(best.score[j]!)), 0),
    n,
    events,
    ties,
    level,
    status: !best.converged ? "not-converged" : estimable.length < size ? "collinear" : "ok",
  };
}

function noFit(
  names: readonly string[],
  fit: Pick<PenalisedHazardFit, "n" | "events" | "ties" | "level"> & {
    readonly reason: "no-rows" | "no-events" | "collinear";
  },
): PenalisedHazardFit {
  const { reason, ...counts } = fit;
  const nothing = names.map(() => null);
  return {
    names,
    coefficients: nothing,
    standardErrors: nothing,
    covariance: names.map(() => nothing),
    profile: names.map(() => ({ lower: null, upper: null })),
    hazardRatios: names.map((name) => ({
      name,
      estimate: null,
      lower: null,
      upper: null,
      statistic: null,
      p: null,
      reason,
    })),
    likelihoodRatio: chiSquareTest(null, 0, reason),
    logLikelihoodNull: null,
    logLikelihood: null,
    iterations: 0,
    converged: false,
    finalGradient: null,
    ...counts,
    status: reason,
  };
}
