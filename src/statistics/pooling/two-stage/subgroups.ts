import { checkColumn, checkSameLength } from "../../shared/arguments.js";
import { normalCritical, tCritical } from "../../shared/distributions.js";
import { checkColumnNames, type NamesOf, readOptions } from "../../shared/options.js";
import {
  type MetaRegressionOptions,
  metaRegressionOptions,
  type RegressionTest,
  testTogether,
  widening,
} from "./meta-regression.js";
import type { PoolingReason } from "./pooling-reason.js";
import { type SiteEstimates, type SiteLeftOut, usableSites } from "./site-estimates.js";
import { residualDf, siteModel } from "./site-model.js";
import { spreadOf } from "./spread.js";

/** Sites in groups of a kind: those of one schedule, of one country. */
export interface SitesInGroups extends SiteEstimates {
  /** Whole numbers; sites with the same number belong together. */
  readonly groups: ArrayLike<number>;
}

const sitesInGroupsNames: NamesOf<SitesInGroups> = { estimates: true, variances: true, groups: true };

/** The pooled answer of the sites of one group. */
export interface SubgroupAnswer {
  readonly group: number;
  readonly sites: number;
  readonly estimate: number | null;
  readonly standardError: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  readonly reason: PoolingReason | null;
}

export interface Subgroups {
  /** Ascending by number; a group none of whose sites can be used is not there. */
  readonly groups: readonly SubgroupAnswer[];
  /** Whether the groups differ: F, or chi-square for the normal interval. */
  readonly between: RegressionTest;
  /** Variance between sites of one group, taken to be the same in all. */
  readonly tauSquared: number | null;
  readonly converged: boolean;
  readonly df: number | null;
  readonly sites: number;
  readonly leftOut: readonly SiteLeftOut[];
  readonly level: number;
  readonly reason: PoolingReason | null;
}

const none = { standardError: null, lower: null, upper: null } as const;

/**
 * The pooled answer in each group of sites, and whether groups differ.
 *
 * One variance between sites is taken for all groups: few sites tell little about one, and a group of two nothing. Within a group
 * m = sum w y / sum w, w = 1 / (v + tau^2); errors as in `metaRegression` on the groups. For a spread of its own put the sites of a group
 * into `randomEffects`.
 *
 * @returns without limits (`too-few-sites`) unless there are more sites than groups; no test with `one-group`
 * @throws ArgumentError naming column and index of a value at fault, or an option
 * @source Borenstein & Higgins 2013, Prev Sci 14:134; Knapp & Hartung 2003, Stat Med 22:2693
 * @example
 * subgroups({ estimates: [1, 3, 6, 8], variances: [1, 1, 1, 1], groups: [0, 0, 1, 1] }).groups.map(({ estimate }) => estimate) // => [2, 7]
 */
export function subgroups(columns: SitesInGroups, options: MetaRegressionOptions = {}): Subgroups {
  checkColumnNames(sitesInGroupsNames, { columns });
  const chosen = readOptions(metaRegressionOptions, options);
  const sites = usableSites({ estimates: columns.estimates, variances: columns.variances });
  const column = { name: "groups", values: columns.groups };
  checkSameLength(column, { name: "estimates", values: columns.estimates as ArrayLike<number> });
  checkColumn(column, "code");
  const groupOf = sites.places.map((site) => columns.groups[site]!);
  const groups = [...new Set(groupOf)].sort((a, b) => a - b);
  const common = { sites: sites.y.length, leftOut: sites.leftOut, level: chosen.level };
  const members = groups.map((group) => groupOf.flatMap((own, i) => (own === group ? [i] : [])));
  const model = siteModel(
    sites,
    groups.slice(1).map((group) => groupOf.map((own) => (own === group ? 1 : 0))),
  );
  const df = residualDf(model);
  if (groups.length === 0 || df < 1) {
    const reason: PoolingReason = groups.length === 0 ? "no-rows" : "too-few-sites";
    return {
      groups: members.map(([only], i) => ({
        group: groups[i]!,
        sites: 1,
        estimate: sites.y[only!]!,
        ...none,
        reason,
      })),
      between: { statistic: null, df: 0, p: null, reason },
      tauSquared: null,
      converged: false,
      df: null,
      ...common,
      reason,
    };
  }
  const spread = spreadOf(model, chosen.spread);
  const factor = widening(spread, { df, interval: chosen.interval });
  const isNormal = chosen.interval === "normal";
  const critical = isNormal ? normalCritical(chosen.level) : tCritical(chosen.level, df);
  const answers = members.map((own, i): SubgroupAnswer => {
    const total = own.reduce((sum, site) => sum + spread.fit.weights[site]!, 0);
    const estimate = own.reduce((sum, site) => sum + (spread.fit.weights[site]! / total) * sites.y[site]!, 0);
    const standardError = Math.sqrt(factor / total);
    const answer = { group: groups[i]!, sites: own.length, estimate };
    if (!(standardError > 0)) return { ...answer, ...none, reason: "no-variance" };
    const half = critical * standardError;
    return { ...answer, standardError, lower: estimate - half, upper: estimate + half, reason: null };
  });
  return {
    groups: answers,
    between:
      groups.length === 1
        ? { statistic: null, df: 0, p: null, reason: "one-group" }
        : testTogether({ model, spread, chosen }, sites),
    tauSquared: spread.tauSquared,
    converged: spread.converged,
    df: isNormal ? null : df,
    ...common,
    reason: null,
  };
}
