import {
  type CommonEffect,
  commonEffect,
  type Limits,
  leaveOneOut,
  type RandomEffects,
  randomEffects,
} from "../../statistics/pooling/index.js";
import type { Count } from "../../study/results-parts.js";
import { limitsOfFigure, shownFrom } from "../summary/shown-scale.js";
import type { SummaryFigure } from "../summary/site-summary.js";
import type { PooledAnswer, PooledCount, PooledFigure, PooledReason, PooledSite } from "./pooled-results.js";

/** What one site says of a figure; `figure` is null where its summary holds none. */
export interface OfSite {
  readonly site: string;
  readonly path: "days" | "spans" | null;
  /** Whether its counts are rounded to a multiple of its smallest cell. */
  readonly rounds: boolean;
  readonly figure: SummaryFigure | null;
  /** Why its summary holds none. */
  readonly missing: PooledReason | null;
  readonly n: Count | null;
  readonly persons: Count | null;
  readonly events: Count | null;
}

/** The parts of a pooled answer that rest on the sites' figures. */
export type PooledParts = Omit<
  PooledAnswer,
  | "id"
  | "of"
  | "family"
  | "label"
  | "compared"
  | "reference"
  | "adjusted_for"
  | "measure"
  | "end"
  | "week"
  | "day"
  | "main"
>;

interface Asked {
  readonly scale: PooledAnswer["scale"];
  readonly level: number;
  /** Whether the answer without each site is wanted as well. */
  readonly leaveOut: boolean;
  /** What no figure lies outside of, as it is shown: 0 and the horizon for mean days. */
  readonly bounds: readonly [least: number, most: number];
}

/**
 * One figure of several sites in two stages: each site's own with its error, then these together.
 *
 * @param sites in the order of their names; one without a figure is in the list with its reason
 */
export function poolFigures(
  sites: readonly OfSite[],
  { scale, level, bounds, leaveOut }: Asked,
): PooledParts {
  const columns = {
    estimates: sites.map(({ figure }) => figure?.estimate ?? null),
    variances: sites.map(({ figure }) => figure?.variance ?? null),
  };
  const common = commonEffect(columns, { level });
  const random = randomEffects(columns, { level });
  const other = randomEffects(columns, { level, spread: "paule-mandel" });
  const shown = shownOn(scale, bounds);
  const used = sites.filter((_, i) => common.weights[i]! > 0);
  const { heterogeneity } = random;
  return {
    scale,
    sites: sites.map((site, i) => siteTold(site, { weight: random.weights[i]!, level })),
    used: used.length,
    n: countOver(used, ({ n }) => n),
    persons: countOver(used, ({ persons }) => persons),
    events: countOver(used, ({ events }) => events),
    common: figureTold(common, { shown, scale }),
    random: {
      ...figureTold(random, { shown, scale }),
      df: random.df,
      prediction: limitsTold(random.prediction, shown),
      spread: spreadTold(random),
    },
    paule_mandel: {
      ...figureTold(other, { shown, scale }),
      prediction: limitsTold(other.prediction, shown),
      spread: spreadTold(other),
    },
    heterogeneity: {
      q: heterogeneity.q,
      df: heterogeneity.df,
      p: heterogeneity.p,
      i_squared: {
        value: heterogeneity.iSquared,
        lower: heterogeneity.iSquaredLimits.lower,
        upper: heterogeneity.iSquaredLimits.upper,
      },
    },
    without:
      used.length < 2 || !leaveOut
        ? []
        : leaveOneOut(columns, { level }).map(({ site, pooled }) => ({
            site: sites[site]!.site,
            value: shown(pooled.estimate),
            lower: shown(pooled.lower),
            upper: shown(pooled.upper),
          })),
  };
}

type Shown = (estimate: number | null) => number | null;

const shownOn =
  (scale: PooledAnswer["scale"], [least, most]: Asked["bounds"]): Shown =>
  (estimate) =>
    estimate === null ? null : Math.max(least, Math.min(most, shownFrom(scale, estimate)));

function siteTold(
  { site, path, figure, missing, n, persons, events }: OfSite,
  { weight, level }: { readonly weight: number; readonly level: number },
): PooledSite {
  const found = figure === null ? null : limitsOfFigure(figure, level);
  return {
    site,
    path,
    n,
    persons,
    events,
    value: figure?.value ?? null,
    lower: found?.lower ?? null,
    upper: found?.upper ?? null,
    weight,
    reason: found !== null ? null : (figure?.reason ?? missing ?? "not-in-summary"),
  };
}

function figureTold(
  found: Pick<
    CommonEffect | RandomEffects,
    "estimate" | "standardError" | "lower" | "upper" | "p" | "reason"
  >,
  { shown, scale }: { readonly shown: Shown; readonly scale: PooledAnswer["scale"] },
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

const limitsTold = ({ lower, upper, reason }: Limits, shown: Shown) => ({
  lower: shown(lower),
  upper: shown(upper),
  reason,
});

const spreadTold = ({ spread }: RandomEffects): PooledAnswer["random"]["spread"] => ({
  tau: spread.tau,
  tau_squared: { value: spread.tauSquared, lower: spread.limits.lower, upper: spread.limits.upper },
  at_zero: spread.atZero,
});

function countOver(sites: readonly OfSite[], of: (site: OfSite) => Count | null): PooledCount {
  const told = sites.map(of).filter((one): one is number => typeof one === "number");
  return {
    told: told.reduce((sum, n) => sum + n, 0),
    not_told: sites.length - told.length,
    rounded: sites.some(({ rounds }) => rounds),
  };
}
