import type { Count } from "../../study/results-parts.js";
import { limitsOfFigure, shownFrom } from "../summary/shown-scale.js";
import type { SummaryFigure } from "../summary/site-summary.js";
import { pooledByCounts } from "./by-counts.js";
import { type AsShown, pooledByEstimates } from "./by-estimates.js";
import { countsOfFigure } from "./counts-of-figure.js";
import type { PooledAnswer, PooledCount, PooledReason, PooledSite } from "./pooled-results.js";
import type { Shown, TwoStages } from "./two-stages.js";

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
  | "first_page"
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
  const shown = shownOn(scale, bounds);
  const { weights, without, ...stages } = inTwoStages(sites, { scale, level, shown });
  const used = sites.filter((_, i) => weights[i]! > 0);
  return {
    scale,
    sites: sites.map((site, i) => siteTold(site, { weight: weights[i]!, level, bounds })),
    used: used.length,
    n: countOver(used, ({ n }) => n),
    persons: countOver(used, ({ persons }) => persons),
    events: countOver(used, ({ events }) => events),
    ...stages,
    without:
      used.length < 2 || !leaveOut
        ? []
        : without().map(({ site, ...answer }) => ({ site: sites[site]!.site, ...answer })),
  };
}

/** Shares by their counts, differences and days by their estimates. */
function inTwoStages(sites: readonly OfSite[], asked: AsShown): TwoStages {
  const estimates = {
    estimates: sites.map(({ figure }) => figure?.estimate ?? null),
    variances: sites.map(({ figure }) => figure?.variance ?? null),
  };
  if (asked.scale !== "logit") return pooledByEstimates(estimates, asked);
  const counts = sites.map(({ figure, path }) => countsOfFigure(figure, path));
  return pooledByCounts(
    {
      counts: {
        events: counts.map((one) => one?.events ?? null),
        sizes: counts.map((one) => one?.size ?? null),
      },
      logOdds: estimates,
    },
    asked,
  );
}

const shownOn =
  (scale: PooledAnswer["scale"], [least, most]: Asked["bounds"]): Shown =>
  (estimate) =>
    estimate === null ? null : Math.max(least, Math.min(most, shownFrom(scale, estimate)));

function siteTold(
  { site, path, figure, missing, n, persons, events }: OfSite,
  { weight, level, bounds }: Pick<Asked, "level" | "bounds"> & { readonly weight: number },
): PooledSite {
  const found = figure === null ? null : limitsOfFigure(figure, level);
  const [least, most] = bounds;
  return {
    site,
    path,
    n,
    persons,
    events,
    value: figure?.value ?? null,
    lower: found === null ? null : Math.max(least, found.lower),
    upper: found === null ? null : Math.min(most, found.upper),
    estimate: figure?.estimate ?? null,
    variance: figure?.variance ?? null,
    weight,
    reason: found !== null ? null : (figure?.reason ?? missing ?? "not-in-summary"),
  };
}

function countOver(sites: readonly OfSite[], of: (site: OfSite) => Count | null): PooledCount {
  const told = sites.map(of).filter((one): one is number => typeof one === "number");
  return {
    told: told.reduce((sum, n) => sum + n, 0),
    not_told: sites.length - told.length,
    rounded: sites.some(({ rounds }) => rounds),
  };
}
