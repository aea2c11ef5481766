import { chiSquareQuantile, chiSquareUpperTail, normalCritical } from "../../shared/distributions.js";
import { type LevelOption, levelOption, readOptions } from "../../shared/options.js";
import type { PoolingReason } from "./pooling-reason.js";
import { type SiteEstimates, type SiteLeftOut, type UsableSites, usableSites } from "./site-estimates.js";
import { fitAt, residualDf, type SiteModel, siteModel } from "./site-model.js";
import { spreadWhereSquaresAre } from "./spread.js";

/** Two limits, or none and the reason. */
export interface Limits {
  readonly lower: number | null;
  readonly upper: number | null;
  readonly reason: PoolingReason | null;
}

/** How far the answers of sites lie apart beyond what their errors explain. */
export interface Heterogeneity {
  /** Weighted squares about the common answer. */
  readonly q: number | null;
  readonly df: number;
  /** P of a Q so large where all sites have one answer; of little power with few sites. */
  readonly p: number | null;
  /** Part of Q beyond its expectation, 0 to 1: (Q - df) / Q. */
  readonly iSquared: number | null;
  /** Limits of that by those of H. */
  readonly iSquaredLimits: Limits;
  /** sqrt(Q / df): 1 where sites differ by no more than their errors. */
  readonly h: number | null;
  readonly hLimits: Limits;
  /** The error variance of a typical site, with which tau^2 gives the other I-squared: tau^2 / (tau^2 + typical). */
  readonly typicalVariance: number | null;
  /** Limits of tau^2, by Q at which chi-square of df has its tails. */
  readonly tauSquaredLimits: Limits;
  /** Limits of the other I-squared, by those of tau^2. */
  readonly iSquaredOfSpreadLimits: Limits;
  readonly sites: number;
  readonly leftOut: readonly SiteLeftOut[];
  readonly level: number;
  readonly reason: PoolingReason | null;
}

const none = (reason: PoolingReason): Limits => ({ lower: null, upper: null, reason });

/** The error of log H that the test of Q implies. */
function errorOfLogH(q: number, df: number): number | null {
  if (q > df + 1) return (Math.log(q) - Math.log(df)) / 2 / (Math.sqrt(2 * q) - Math.sqrt(2 * df - 1));
  return df > 1 ? Math.sqrt((1 / (2 * (df - 1))) * (1 - 1 / (3 * (df - 1) ** 2))) : null;
}

function limitsOfH({ q, df }: { readonly q: number; readonly df: number }, level: number): Limits {
  if (q === 0) return none("no-variance");
  const error = errorOfLogH(q, df);
  if (error === null) return none("too-few-sites");
  const half = Math.exp(normalCritical(level) * error);
  const h = Math.sqrt(q / df);
  return { lower: h / half, upper: h * half, reason: null };
}

const partBeyond = (h: number): number => Math.max(0, 1 - 1 / (h * h));

/** @returns no limits where even the upper one would be 0 */
function limitsOfPart({ lower, upper, reason }: Limits): Limits {
  if (lower === null || upper === null) return none(reason ?? "too-few-sites");
  const most = partBeyond(upper);
  return most > 0 ? { lower: partBeyond(lower), upper: most, reason: null } : none("closer-than-chance");
}

/** @returns no limits where the sites lie closer together than chance would have them, so that every tau^2 is refused */
export function spreadLimits(model: SiteModel, level: number): Limits {
  const df = residualDf(model);
  const tail = (1 - level) / 2;
  const upper = spreadWhereSquaresAre(model, chiSquareQuantile(tail, df));
  if (upper === null || upper === 0) return none("closer-than-chance");
  const lower = spreadWhereSquaresAre(model, chiSquareQuantile(1 - tail, df)) ?? 0;
  return { lower, upper, reason: null };
}

/** (k - 1) sum w / ((sum w)^2 - sum w^2), w = 1 / v; of a regression df over the trace of P. */
export const typicalVariance = (model: SiteModel): number => residualDf(model) / fitAt(model, 0).trace;

function limitsOfPartOfSpread({ lower, upper, reason }: Limits, typical: number): Limits {
  if (lower === null || upper === null) return none(reason ?? "closer-than-chance");
  return { lower: lower / (lower + typical), upper: upper / (upper + typical), reason: null };
}

/** The same of sites that are sorted out already. */
export function heterogeneityOf({ y, v, leftOut }: UsableSites, level: number): Heterogeneity {
  const common = { sites: y.length, leftOut, level };
  if (y.length < 2) {
    const reason: PoolingReason = y.length === 0 ? "no-rows" : "too-few-sites";
    const empty = none(reason);
    const figures = { q: null, p: null, iSquared: null, h: null, typicalVariance: null };
    const limits = { iSquaredLimits: empty, hLimits: empty, tauSquaredLimits: empty };
    return { ...figures, ...limits, iSquaredOfSpreadLimits: empty, df: 0, ...common, reason };
  }
  const model = siteModel({ y, v });
  const df = residualDf(model);
  const q = fitAt(model, 0).squares;
  const typical = typicalVariance(model);
  const hLimits = limitsOfH({ q, df }, level);
  const tauSquaredLimits = spreadLimits(model, level);
  return {
    q,
    df,
    p: chiSquareUpperTail(q, df),
    iSquared: q === 0 ? 0 : Math.max(0, (q - df) / q),
    iSquaredLimits: limitsOfPart(hLimits),
    h: Math.sqrt(q / df),
    hLimits,
    typicalVariance: typical,
    tauSquaredLimits,
    iSquaredOfSpreadLimits: limitsOfPartOfSpread(tauSquaredLimits, typical),
    ...common,
    reason: null,
  };
}

/**
 * How far the answers of sites lie apart: Q with its test, H, I-squared with limits, and limits of the variance between sites.
 *
 * Q = sum w (y - m)^2, w = 1 / v, m the weighted mean; H = sqrt(Q / (k - 1)). Two figures go by the name of I-squared: (Q - df) / Q, given
 * here with the limits that the test of Q implies, and tau^2 / (tau^2 + typical variance), for which the typical variance and limits
 * stand here and the value by each estimator in `randomEffects`. They are one only for DerSimonian and Laird. Limits of tau^2: the values
 * at which the generalised Q has its tail probabilities.
 *
 * @returns nulls with `no-rows` or `too-few-sites` (one); no limits of tau^2 with `closer-than-chance`, where even tau^2 = 0 would have the
 *   sites lie further apart
 * @throws ArgumentError naming column and index of a value that is no number, or of a negative variance; or the level
 * @source Cochran 1954, Biometrics 10:101; Higgins & Thompson 2002, Stat Med 21:1539; limits of tau^2: Viechtbauer 2007, Stat Med 26:37
 * @example
 * heterogeneity({ estimates: [0, 2], variances: [1, 1] }).q // => 2
 */
export function heterogeneity(columns: SiteEstimates, options: LevelOption = {}): Heterogeneity {
  const { level } = readOptions(levelOption, options);
  return heterogeneityOf(usableSites(columns), level);
}
