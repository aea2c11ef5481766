import { functionalOf, toColumns } from "../../linear/orthonormal-basis.js";
import { tCritical, tTwoSided } from "../../shared/distributions.js";
import { type LevelOption, levelOption, readOptions } from "../../shared/options.js";
import type { PoolingReason } from "./pooling-reason.js";
import { type SiteEstimates, type SiteLeftOut, usableSites } from "./site-estimates.js";
import { fitAt, residualDf, siteModel } from "./site-model.js";

/** Whether small sites answer otherwise than large ones. */
export interface SmallStudyAsymmetry {
  /** Change of the answer per unit of its standard error; 0 where small and large sites answer alike. */
  readonly estimate: number | null;
  readonly standardError: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  readonly t: number | null;
  readonly df: number | null;
  readonly p: number | null;
  readonly sites: number;
  readonly leftOut: readonly SiteLeftOut[];
  readonly level: number;
  readonly reason: PoolingReason | null;
}

/** With fewer the test cannot tell chance from asymmetry. */
export const fewestForAsymmetry = 10;

const none = {
  estimate: null,
  standardError: null,
  lower: null,
  upper: null,
  t: null,
  df: null,
  p: null,
} as const;

/**
 * Regression of the answers on their standard errors, weighted by 1 / v: the slope is the intercept of Egger's regression of y / SE on 1 / SE.
 *
 * It is refused below ten sites, where it has next to no power. Of shares on the log odds scale an answer and its error are tied to each
 * other by the counts, so that a slope is no sign of anything.
 *
 * @returns nulls with `too-few-sites` below ten sites, with `no-variance` where all have one standard error
 * @throws ArgumentError naming column and index of a value that is no number, or of a negative variance; or the level
 * @source Egger, Davey Smith, Schneider & Minder 1997, BMJ 315:629; ten at least: Sterne, Sutton, Ioannidis and others 2011, BMJ 343:d4002
 * @example
 * smallStudyAsymmetry({ estimates: [1, 2], variances: [1, 2] }).reason // => "too-few-sites"
 */
export function smallStudyAsymmetry(columns: SiteEstimates, options: LevelOption = {}): SmallStudyAsymmetry {
  const { level } = readOptions(levelOption, options);
  const sites = usableSites(columns);
  const common = { sites: sites.y.length, leftOut: sites.leftOut, level };
  if (sites.y.length < fewestForAsymmetry) return { ...none, ...common, reason: "too-few-sites" };
  const model = siteModel(sites, [sites.v.map(Math.sqrt)]);
  if (model.basis.size < 2) return { ...none, ...common, reason: "no-variance" };
  const df = residualDf(model);
  const fit = fitAt(model, 0);
  const row = functionalOf(model.basis, 1);
  const variance = row[1]! ** 2 * fit.covariance[3]!;
  const estimate = toColumns(model.basis, fit.coefficients)[1]!;
  const standardError = Math.sqrt((fit.squares / df) * variance);
  if (!(standardError > 0)) return { ...none, ...common, estimate, reason: "no-variance" };
  const half = tCritical(level, df) * standardError;
  const t = estimate / standardError;
  return {
    estimate,
    standardError,
    lower: estimate - half,
    upper: estimate + half,
    t,
    df,
    p: tTwoSided(t, df),
    ...common,
    reason: null,
  };
}
