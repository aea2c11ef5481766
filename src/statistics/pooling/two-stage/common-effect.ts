import { normalCritical, normalTwoSided } from "../../shared/distributions.js";
import { type LevelOption, levelOption, readOptions } from "../../shared/options.js";
import type { PoolingReason } from "./pooling-reason.js";
import {
  type SiteEstimates,
  type SiteLeftOut,
  type UsableSites,
  usableSites,
  weightShares,
} from "./site-estimates.js";
import { fitAt, siteModel } from "./site-model.js";

/** The pooled answer, taking it for one and the same at all sites. */
export interface CommonEffect {
  readonly estimate: number | null;
  readonly standardError: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  /** estimate / standardError. */
  readonly z: number | null;
  readonly p: number | null;
  /** Part of each site, in the places of the columns, of sum 1; 0 for a site left out. */
  readonly weights: readonly number[];
  /** Sites used. */
  readonly sites: number;
  readonly leftOut: readonly SiteLeftOut[];
  readonly level: number;
  readonly reason: PoolingReason | null;
}

/** The same of sites that are sorted out already. */
export function commonEffectOf(sites: UsableSites, level: number): CommonEffect {
  const common = { sites: sites.y.length, leftOut: sites.leftOut, level };
  if (sites.y.length === 0) {
    const figures = { estimate: null, standardError: null, lower: null, upper: null, z: null, p: null };
    return { ...figures, weights: weightShares(sites, []), ...common, reason: "no-rows" };
  }
  const model = siteModel(sites);
  const fit = fitAt(model, 0);
  const estimate = model.centre + fit.coefficients[0]!;
  const standardError = Math.sqrt(1 / fit.total);
  const half = normalCritical(level) * standardError;
  const z = estimate / standardError;
  return {
    estimate,
    standardError,
    lower: estimate - half,
    upper: estimate + half,
    z,
    p: normalTwoSided(z),
    weights: weightShares(sites, fit.weights),
    ...common,
    reason: null,
  };
}

/**
 * Inverse-variance mean of the sites' estimates: the answer of exactly these sites, taking it for one and the same at all of them.
 *
 * m = sum w y / sum w with w = 1 / v; its variance is 1 / sum w. Where sites differ beyond their errors its interval is too narrow for any
 * other site: `randomEffects`.
 *
 * @returns nulls with `no-rows` where no site can be used
 * @throws ArgumentError naming column and index of a value that is no number, or of a negative variance; or the level
 * @source Cochran 1954, Biometrics 10:101
 * @example
 * commonEffect({ estimates: [1, 4], variances: [1, 2] }).estimate // => 2
 */
export function commonEffect(columns: SiteEstimates, options: LevelOption = {}): CommonEffect {
  const { level } = readOptions(levelOption, options);
  return commonEffectOf(usableSites(columns), level);
}
