import {
  type CommonEffect,
  commonEffect,
  furtherSite,
  type Heterogeneity,
  leaveOneOut,
  type RandomEffects,
  randomEffects,
  type SiteEstimates,
} from "../../statistics/pooling/index.js";
import type { PooledAnswer, PooledFigure } from "./pooled-results.js";
import { limitsTold, type Shown, type TwoStages } from "./two-stages.js";

export interface AsShown {
  readonly level: number;
  readonly scale: PooledAnswer["scale"];
  readonly shown: Shown;
}

/** Sites pooled by their estimates with their errors. */
export function pooledByEstimates(columns: SiteEstimates, asked: AsShown): TwoStages {
  const { level, shown } = asked;
  const random = randomEffects(columns, { level });
  return {
    pooled_by: "estimates",
    weights: random.weights,
    common: figureTold(commonEffect(columns, { level }), asked),
    random: {
      ...figureTold(random, asked),
      df: random.df,
      prediction: limitsTold(furtherSite(columns, { level }), shown),
      spread: spreadTold(random),
    },
    paule_mandel: byPauleMandel(columns, asked),
    heterogeneity: heterogeneityTold(random.heterogeneity),
    without: () =>
      leaveOneOut(columns, { level }).map(({ site, pooled: { estimate, lower, upper } }) => ({
        site,
        value: shown(estimate),
        lower: shown(lower),
        upper: shown(upper),
      })),
  };
}

/** The answer with the spread between sites by Paule and Mandel. */
export function byPauleMandel(columns: SiteEstimates, asked: AsShown): PooledAnswer["paule_mandel"] {
  const found = randomEffects(columns, { level: asked.level, spread: "paule-mandel" });
  return { ...figureTold(found, asked), spread: spreadTold(found) };
}

export function figureTold(
  found: Pick<
    CommonEffect | RandomEffects,
    "estimate" | "standardError" | "lower" | "upper" | "p" | "reason"
  >,
  { shown, scale }: Pick<AsShown, "shown" | "scale">,
): PooledFigure {
  return {
    value: shown(found.estimate),
    lower: shown(found.lower),
    upper: shown(found.upper),
    estimate: found.estimate,
    standard_error: found.standardError,
    p: scale === "logit" ? null : found.p,
    reason: found.reason,
  };
}

export const heterogeneityTold = ({
  q,
  df,
  p,
  iSquared,
  iSquaredLimits: { lower, upper },
}: Heterogeneity): PooledAnswer["heterogeneity"] => ({
  q,
  df,
  p,
  i_squared: { value: iSquared, lower, upper },
});

const spreadTold = ({ spread }: RandomEffects): PooledAnswer["random"]["spread"] => ({
  tau: spread.tau,
  tau_squared: { value: spread.tauSquared, lower: spread.limits.lower, upper: spread.limits.upper },
  at_zero: spread.atZero,
});
