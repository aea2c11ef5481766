import { type Curve, shareAt } from "../../statistics/index.js";
import {
  hazardsOfTable,
  incidenceOfTable,
  logRankOfTable,
  productLimitOfTable,
} from "../../statistics/pooling/tables/index.js";
import type { EndsTold } from "./risk-sets.js";
import { type JoinedTables, joinTables, type TableOfSite } from "./tables-of-sites.js";

/** What of the agreed study file the tables are asked about. */
export interface TablesAsked {
  /** In the order of the report. */
  readonly groups: readonly string[];
  readonly reference: string;
  readonly level: number;
  /** Efron's ties where nothing else is asked for: in bins most events are tied. */
  readonly ties: "efron" | "breslow";
}

/** A share at the end of a bin that all sites share. */
export interface PooledPoint {
  readonly day: number;
  readonly at_risk: number;
  readonly events: number;
  readonly returned: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
}

export interface PooledCurve {
  readonly group: string;
  readonly n: number;
  readonly events: number;
  readonly points: readonly PooledPoint[];
}

export interface PooledRatio {
  readonly compared: string;
  readonly reference: string;
  readonly estimate: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  readonly standard_error: number | null;
  readonly p: number | null;
  readonly reason: string | null;
}

/** What the tables of several sites say together. */
export interface PooledTables {
  readonly sites: readonly string[];
  readonly injuries: number;
  readonly events: number;
  readonly intervals_take: "every injury on its own";
  readonly ties: "efron" | "breslow";
  readonly level: number;
  readonly bin_ends: readonly number[];
  readonly ends_told: EndsTold;
  /**
   * `share_of_people`: whoever came to another end counts as not back. `if_no_other_end`: where a site tells other ends as ends of follow-up, no
   * share of people can be computed.
   */
  readonly curves: {
    readonly answers: "share_of_people" | "if_no_other_end";
    readonly groups: readonly PooledCurve[];
  };
  /** Within strata of the study and sites. */
  readonly log_rank: {
    readonly chi_square: number | null;
    readonly df: number;
    readonly p: number | null;
    readonly reason: string | null;
  };
  /** Within strata of the study and sites, each with a baseline of its own. */
  readonly hazard_ratios: readonly PooledRatio[];
}

/**
 * What the tables of any set of sites give exactly: curves with all sites as one, and log-rank test and hazard ratios within each stratum of
 * each site. The same as from their rows in the same bins; the order of the sites does not matter.
 *
 * @throws PoolingFileError naming the file and the place of what makes no table
 */
export function poolTables(tables: readonly TableOfSite[], asked: TablesAsked): PooledTables {
  const { level, ties, reference } = asked;
  const inOrder = [...tables].sort((a, b) => (a.site < b.site ? -1 : a.site > b.site ? 1 : 0));
  const groups = [reference, ...asked.groups.filter((group) => group !== reference)];
  const joined = joinTables(inOrder, groups);
  const test = logRankOfTable(joined.apart);
  const fit = hazardsOfTable(joined.apart, { level, ties });
  return {
    sites: inOrder.map(({ site }) => site),
    injuries: fit.n,
    events: fit.events,
    intervals_take: "every injury on its own",
    ties,
    level,
    bin_ends: joined.bin_ends,
    ends_told: joined.ends_told,
    curves: curvesOf(joined, asked),
    log_rank: { chi_square: test.chiSquare, df: test.df, p: test.p, reason: test.reason },
    hazard_ratios: fit.hazardRatios.map((ratio, i): PooledRatio => {
      const { estimate, lower, upper, p, reason } = ratio;
      return {
        compared: groups[i + 1]!,
        reference,
        estimate,
        lower,
        upper,
        standard_error: fit.standardErrors[i] ?? null,
        p,
        reason: fit.converged ? reason : (reason ?? "not-converged"),
      };
    }),
  };
}

function curvesOf(
  { groups, together, bin_ends, ends_told }: JoinedTables,
  asked: TablesAsked,
): PooledTables["curves"] {
  const ofPeople = ends_told !== "as_ends_of_follow_up";
  const curveOf = ofPeople ? incidenceOfTable : productLimitOfTable;
  return {
    answers: ofPeople ? "share_of_people" : "if_no_other_end",
    groups: asked.groups.map((group): PooledCurve => {
      const curve = curveOf(together, { group: groups.indexOf(group), level: asked.level });
      const { n, totalEvents } = curve;
      return { group, n, events: totalEvents, points: bin_ends.map((day) => pointAt(curve, day)) };
    }),
  };
}

function pointAt(curve: Curve, day: number): PooledPoint {
  const { atRisk, cumulativeEvents, returned, returnedLower, returnedUpper } = shareAt(curve, day);
  return {
    day,
    at_risk: atRisk,
    events: cumulativeEvents,
    returned,
    lower: returnedLower,
    upper: returnedUpper,
  };
}
