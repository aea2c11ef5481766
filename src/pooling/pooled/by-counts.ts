import {
  furtherSiteShare,
  heterogeneity,
  type Limits,
  type PooledShare,
  pooledShare,
  randomEffects,
  type SiteEstimates,
  type SiteShares,
} from "../../statistics/pooling/index.js";
import { normalCritical } from "../../statistics/shared/distributions.js";
import { type AsShown, byPauleMandel, heterogeneityTold, pooledByEstimates } from "./by-estimates.js";
import type { PooledFigure } from "./pooled-results.js";
import { limitsTold, type TwoStages } from "./two-stages.js";

/** Shares of sites, as counts and as log odds. */
export interface SharesOfSites {
  readonly counts: SiteShares;
  readonly logOdds: SiteEstimates;
}

/**
 * Shares of sites pooled by the likelihood of their counts: no half is added, so small sites where nobody or everybody is back bring no bias.
 *
 * Where the counts alone give no interval (one site, nobody or everybody back at all of them) the log odds with half an injury added do. Q,
 * I-squared and what Paule and Mandel find are of the log odds in any case.
 */
export function pooledByCounts({ counts, logOdds }: SharesOfSites, asked: AsShown): TwoStages {
  const { level, shown } = asked;
  const found = pooledShare(counts, { level });
  if (found.lower === null) return pooledByEstimates(logOdds, asked);
  const spread = heterogeneity(logOdds, { level });
  return {
    pooled_by: "counts",
    weights: found.weights,
    common: commonShare(counts, level),
    random: {
      ...figureOf(found),
      df: found.df,
      prediction: limitsTold(furtherSiteShare(counts, { level }), (share) => share),
      spread: {
        tau: found.spread.tau,
        tau_squared: {
          value: found.spread.tauSquared,
          ...limitsAround(found.spread.tauSquared, spread.tauSquaredLimits),
        },
        at_zero: found.spread.atZero,
      },
    },
    paule_mandel: byPauleMandel(logOdds, { level, scale: "logit", shown }),
    heterogeneity: heterogeneityTold(spread),
    without: () => withoutEach({ counts, logOdds }, asked),
  };
}

const figureOf = ({ estimate, lower, upper, logOdds, standardError, reason }: PooledShare): PooledFigure => ({
  value: estimate,
  lower,
  upper,
  estimate: logOdds,
  standard_error: standardError,
  p: null,
  reason,
});

/** Limits are those of the log odds; the counts may find a spread just beyond them, which they then reach to. */
function limitsAround(
  value: number | null,
  { lower, upper }: Limits,
): { readonly lower: number | null; readonly upper: number | null } {
  if (value === null || lower === null || upper === null) return { lower, upper };
  return { lower: Math.min(lower, value), upper: Math.max(upper, value) };
}

/** All sites as one, on the log odds: the likelihood of the counts without a spread. */
function commonShare({ events, sizes }: SiteShares, level: number): PooledFigure {
  let [back, all] = [0, 0];
  for (let site = 0; site < sizes.length; site++) {
    back += events[site] ?? 0;
    all += sizes[site] ?? 0;
  }
  const estimate = Math.log(back / (all - back));
  const error = 1 / Math.sqrt((back / all) * (all - back));
  const half = normalCritical(level) * error;
  const share = (logOdds: number): number => 1 / (1 + Math.exp(-logOdds));
  return {
    value: back / all,
    lower: share(estimate - half),
    upper: share(estimate + half),
    estimate,
    standard_error: error,
    p: null,
    reason: null,
  };
}

function withoutEach({ counts, logOdds }: SharesOfSites, { level, shown }: AsShown) {
  const places = Array.from(counts.sizes, (_, site) => site).filter((site) => (counts.sizes[site] ?? 0) > 0);
  return places.map((site) => {
    const less = (column: ArrayLike<number | null>) =>
      Array.from(column, (value, i) => (i === site ? null : value));
    const { estimate, lower, upper } = pooledShare(
      { events: less(counts.events), sizes: less(counts.sizes) },
      { level },
    );
    if (lower !== null) return { site, value: estimate, lower, upper };
    const ofOdds = randomEffects(
      { estimates: less(logOdds.estimates), variances: less(logOdds.variances) },
      { level },
    );
    return { site, value: shown(ofOdds.estimate), lower: shown(ofOdds.lower), upper: shown(ofOdds.upper) };
  });
}
