import { type Curve, shareAt } from "../../statistics/index.js";
import {
  hazardsOfTable,
  incidenceOfTable,
  logRankOfTable,
  productLimitOfTable,
  type SortedTable,
} from "../../statistics/pooling/tables/index.js";
import type { ShareBack } from "../../study/plan.js";
import type { PooledCurve, PooledRatio, PooledTables } from "./pooled-tables.js";
import { type JoinedTables, joinTables, type TableOfSite } from "./tables-of-sites.js";

/** What of the agreed study file the tables are asked about. */
export interface TablesAsked {
  /** In the order of the report. */
  readonly groups: readonly string[];
  readonly reference: string;
  /** What becomes, in a share back, of those who came to another end. */
  readonly shareBack: ShareBack;
  readonly level: number;
  /** Efron's ties where nothing else is asked for: in bins most events are tied. */
  readonly ties: "efron" | "breslow";
}

/**
 * What the tables of any set of sites give exactly: curves with all sites as one, and log-rank test and hazard ratios within each stratum of
 * each site. The same as from their rows in the same bins; the order of the sites does not matter.
 *
 * @param tables of at least one site
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
    sites: inOrder.map(({ site, risk_sets }, i) => ({
      site,
      injuries: sumOf(joined.bySite[i]!.entered),
      events: sumOf(joined.bySite[i]!.events[0] ?? []),
      bin_days: risk_sets.bin_days,
      bin_ends: risk_sets.bin_ends,
      ends_told: risk_sets.ends_told,
      left_out: risk_sets.left_out,
    })),
    injuries: fit.n,
    events: fit.events,
    intervals_take: "every injury on its own",
    ties,
    level,
    held_equal: inOrder[0]?.risk_sets.strata ?? [],
    not_held_equal: [...new Set(inOrder.flatMap(({ risk_sets }) => risk_sets.not_held_equal))].sort(),
    same_bins: areAlike(inOrder),
    bin_ends: [...joined.bin_ends],
    ends_told: joined.ends_told,
    curves: curvesOf(joined, { ...asked, sites: inOrder }),
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

const sumOf = (counts: readonly number[]): number => counts.reduce((sum, n) => sum + n, 0);

/** Whether each site has every end of a bin that another has, as far as its follow-up goes. */
function areAlike(tables: readonly TableOfSite[]): boolean {
  const ends = [...new Set(tables.flatMap(({ risk_sets }) => risk_sets.bin_ends))];
  return tables.every(({ risk_sets: { bin_ends } }) => {
    const own = new Set(bin_ends);
    return ends.every((end) => own.has(end) || end > (bin_ends.at(-1) ?? 0));
  });
}

function curvesOf(
  { groups, together, bySite, bin_ends, ends_told }: JoinedTables,
  asked: TablesAsked & { readonly sites: readonly TableOfSite[] },
): PooledTables["curves"] {
  const ofPeople = ends_told !== "as_ends_of_follow_up" && asked.shareBack === "of_everyone";
  const curveOf = ofPeople ? incidenceOfTable : productLimitOfTable;
  const ofGroup = (table: SortedTable, group: string): Curve =>
    curveOf(table, { group: groups.indexOf(group), level: asked.level });
  return {
    answers: ofPeople ? "share_of_people" : "if_no_other_end",
    groups: asked.groups.map((group): PooledCurve => {
      const curve = ofGroup(together, group);
      const { n, totalEvents } = curve;
      return {
        group,
        n,
        events: totalEvents,
        points: bin_ends.map((day) => pointAt(curve, day)),
        sites: asked.sites.flatMap(({ site, risk_sets }, i) => {
          const own = ofGroup(bySite[i]!, group);
          const points = risk_sets.bin_ends.flatMap((day) => {
            const { returned } = shareAt(own, day);
            return returned === null ? [] : [{ day, returned }];
          });
          return own.n === 0 ? [] : [{ site, n: own.n, events: own.totalEvents, points }];
        }),
      };
    }),
  };
}

function pointAt(curve: Curve, day: number): PooledCurve["points"][number] {
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
