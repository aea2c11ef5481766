import { functionalOf, toColumns } from "../../linear/orthonormal-basis.js";
import type { Covariates } from "../../shared/covariates.js";
import { checkCovariates } from "../../shared/covariates.js";
import {
  chiSquareUpperTail,
  fUpperTail,
  normalCritical,
  normalTwoSided,
  tCritical,
  tTwoSided,
} from "../../shared/distributions.js";
import {
  checkColumnNames,
  confidenceLevel,
  type NamesOf,
  type OptionsOf,
  oneOf,
  type Read,
  readOptions,
} from "../../shared/options.js";
import type { PoolingReason } from "./pooling-reason.js";
import { type PooledInterval, pooledIntervals } from "./random-effects.js";
import { type SiteEstimates, type SiteLeftOut, type UsableSites, usableSites } from "./site-estimates.js";
import { fitAt, residualDf, type SiteModel, siteModel } from "./site-model.js";
import { type Spread, spreadMethods, spreadOf } from "./spread.js";

/** Sites with what may explain why they differ. */
export interface SitesWithCovariates extends SiteEstimates {
  /** One value a site in each; without the intercept, which is always there. */
  readonly covariates: Covariates;
}

const sitesWithCovariatesNames: NamesOf<SitesWithCovariates> = {
  estimates: true,
  variances: true,
  covariates: true,
};

export const metaRegressionOptions = {
  /** Default 0.95. */
  level: confidenceLevel,
  /** How the variance between sites that the covariates leave is estimated. Default "restricted-likelihood". */
  spread: oneOf(spreadMethods, "restricted-likelihood"),
  /** Default "hartung-knapp-never-narrower". */
  interval: oneOf(pooledIntervals, "hartung-knapp-never-narrower"),
};

export interface MetaRegressionOptions extends OptionsOf<typeof metaRegressionOptions> {}

/** Intercept and covariates on which the answers of sites depend. */
export interface MetaRegression {
  /** "intercept", then the covariates as given. */
  readonly names: readonly string[];
  /** Change of the answer per unit of the covariate; null where it is collinear. */
  readonly coefficients: readonly (number | null)[];
  readonly standardErrors: readonly (number | null)[];
  readonly lower: readonly (number | null)[];
  readonly upper: readonly (number | null)[];
  readonly p: readonly (number | null)[];
  readonly reasons: readonly (PoolingReason | null)[];
  /** Of Student's t: sites less coefficients; null for the normal interval. */
  readonly df: number | null;
  /** All covariates together: F, or chi-square for the normal interval. */
  readonly together: RegressionTest;
  /** Variance between sites that the covariates leave. */
  readonly tauSquared: number | null;
  readonly converged: boolean;
  /** Q about the line, with its test. */
  readonly residual: RegressionTest;
  readonly sites: number;
  /** Sites for each covariate; below ten a line is a guess. */
  readonly sitesPerCovariate: number | null;
  readonly leftOut: readonly SiteLeftOut[];
  readonly level: number;
  readonly reason: PoolingReason | null;
}

export interface RegressionTest {
  readonly statistic: number | null;
  readonly df: number;
  readonly p: number | null;
  readonly reason: PoolingReason | null;
}

type Chosen = Read<typeof metaRegressionOptions>;
type Terms = Pick<MetaRegression, "coefficients" | "standardErrors" | "lower" | "upper" | "p" | "reasons">;

/** By how much the errors of the fit are widened. */
export function widening(spread: Spread, { df, interval }: { df: number; interval: PooledInterval }): number {
  const square = spread.fit.squares / df;
  if (interval === "normal") return 1;
  return interval === "hartung-knapp" ? square : Math.max(1, square);
}

interface Fitted {
  readonly model: SiteModel;
  readonly spread: Spread;
  readonly chosen: Chosen;
}

/** Each coefficient of the kept columns with its error. */
function kept({ model, spread, chosen }: Fitted) {
  const { basis, centre } = model;
  const factor = widening(spread, { df: residualDf(model), interval: chosen.interval });
  return Array.from(toColumns(basis, spread.fit.coefficients), (value, i) => {
    const row = functionalOf(basis, i);
    let variance = 0;
    for (let j = 0; j < basis.size; j++)
      for (let k = 0; k < basis.size; k++)
        variance += row[j]! * spread.fit.covariance[j * basis.size + k]! * row[k]!;
    return { value: i === 0 ? value + centre : value, error: Math.sqrt(factor * variance) };
  });
}

function termsOf(fitted: Fitted, count: number): Terms {
  const { model, chosen } = fitted;
  const df = residualDf(model);
  const isNormal = chosen.interval === "normal";
  const critical = isNormal ? normalCritical(chosen.level) : tCritical(chosen.level, df);
  const all = kept(fitted);
  const at = Array.from({ length: count }, (_, j) => all[model.basis.kept.indexOf(j)] ?? null);
  const withError = at.map((term) => (term !== null && term.error > 0 ? term : null));
  return {
    coefficients: at.map((term) => term?.value ?? null),
    standardErrors: withError.map((term) => term?.error ?? null),
    lower: withError.map((term) => (term === null ? null : term.value - critical * term.error)),
    upper: withError.map((term) => (term === null ? null : term.value + critical * term.error)),
    p: withError.map((term) => {
      if (term === null) return null;
      const t = term.value / term.error;
      return isNormal ? normalTwoSided(t) : tTwoSided(t, df);
    }),
    reasons: at.map((term, j) => {
      if (term === null) return "collinear";
      return withError[j] === null ? "no-variance" : null;
    }),
  };
}

const noTest = (reason: PoolingReason, df = 0): RegressionTest => ({ statistic: null, df, p: null, reason });

/** All covariates together: the weighted squares that they take away, at the spread of the full model. */
export function testTogether(fitted: Fitted, sites: UsableSites): RegressionTest {
  const { model, spread, chosen } = fitted;
  const df = model.basis.size - 1;
  if (df === 0) return noTest("no-covariates");
  const denominator = residualDf(model);
  const factor = widening(spread, { df: denominator, interval: chosen.interval });
  if (!(factor > 0)) return noTest("no-variance", df);
  const taken = Math.max(0, fitAt(siteModel(sites), spread.tauSquared).squares - spread.fit.squares);
  if (chosen.interval === "normal")
    return { statistic: taken, df, p: chiSquareUpperTail(taken, df), reason: null };
  const statistic = taken / df / factor;
  return { statistic, df, p: fUpperTail(statistic, { numerator: df, denominator }), reason: null };
}

function residualTest(model: SiteModel): RegressionTest {
  const df = residualDf(model);
  const statistic = fitAt(model, 0).squares;
  return { statistic, df, p: chiSquareUpperTail(statistic, df), reason: null };
}

function withoutFit(
  count: number,
  reason: PoolingReason,
): Terms & Pick<MetaRegression, "together" | "residual"> {
  const none = new Array<null>(count).fill(null);
  return {
    coefficients: none,
    standardErrors: none,
    lower: none,
    upper: none,
    p: none,
    reasons: new Array<PoolingReason>(count).fill(reason),
    together: noTest(reason),
    residual: noTest(reason),
  };
}

const atPlaces = (column: ArrayLike<number>, places: readonly number[]): Float64Array =>
  Float64Array.from(places, (site) => column[site]!);

/**
 * The answers of sites as a line in what describes the sites: y_i = x_i'b + u_i + e_i, u of the variance that the covariates leave.
 *
 * Weighted least squares with w = 1 / (v + tau^2); errors are multiplied by sqrt(q), q = sum w r^2 / (k - p) (Knapp & Hartung), by default
 * 1 at least, and take Student's t with k - p degrees of freedom. It compares sites, not people: what holds between sites need not hold
 * within one. With fewer than ten sites a covariate it finds little and what it finds may be chance (`sitesPerCovariate`).
 *
 * @returns nulls with `too-few-sites` unless there are more sites than coefficients, with `no-rows` without sites; a covariate that is
 *   constant or a combination of those before it has `collinear`
 * @throws ArgumentError naming column and index of a value that is no number, of a negative variance, or the covariate; or an option
 * @source Knapp & Hartung 2003, Stat Med 22:2693; cautions: Thompson & Higgins 2002, Stat Med 21:1559
 * @example
 * metaRegression({ estimates: [1, 2, 3.5, 4], variances: [1, 1, 1, 1], covariates: { names: ["x"], columns: [[0, 1, 2, 3]] } }).coefficients[1] // => 1.05
 */
export function metaRegression(
  columns: SitesWithCovariates,
  options: MetaRegressionOptions = {},
): MetaRegression {
  checkColumnNames(sitesWithCovariatesNames, { columns });
  const chosen = readOptions(metaRegressionOptions, options);
  const { estimates, variances, covariates } = columns;
  const sites = usableSites({ estimates, variances });
  checkCovariates(covariates, { name: "estimates", values: estimates as ArrayLike<number> });
  const names = ["intercept", ...covariates.names];
  const count = covariates.names.length;
  const common = {
    names,
    sites: sites.y.length,
    sitesPerCovariate: count === 0 ? null : sites.y.length / count,
    leftOut: sites.leftOut,
    level: chosen.level,
  };
  const model = siteModel(
    sites,
    covariates.columns.map((column) => atPlaces(column, sites.places)),
  );
  if (residualDf(model) < 1) {
    const reason: PoolingReason = sites.y.length === 0 ? "no-rows" : "too-few-sites";
    return {
      ...common,
      ...withoutFit(names.length, reason),
      df: null,
      tauSquared: null,
      converged: false,
      reason,
    };
  }
  const spread = spreadOf(model, chosen.spread);
  const fitted = { model, spread, chosen };
  return {
    ...common,
    ...termsOf(fitted, names.length),
    df: chosen.interval === "normal" ? null : residualDf(model),
    together: testTogether(fitted, sites),
    tauSquared: spread.tauSquared,
    converged: spread.converged,
    residual: residualTest(model),
    reason: null,
  };
}
