import type { PooledResults } from "../../pooling/pooled/index.js";
import { type FlatTable, flatTable, unfold } from "../tables/reshape.js";

/** What the risk-set tables of the sites give, as tables: curves, each site's curves, hazard ratios. */
export function tableCsv({ risk_sets }: Pick<PooledResults, "risk_sets">): FlatTable[] {
  const together = risk_sets?.together ?? null;
  if (together === null) return [];
  const { groups } = together.curves;
  const ofSites = unfold(groups, ({ sites }) => sites).flatMap(({ parent, child }) =>
    child.points.map((point) => ({ parent, child, point })),
  );
  return [
    flatTable("risk-set-curves", {
      things: unfold(groups, ({ points }) => points),
      columns: {
        group: ({ parent }) => parent.group,
        answers: () => together.curves.answers,
        day: ({ child }) => child.day,
        at_risk: ({ child }) => child.at_risk,
        returned_so_far: ({ child }) => child.events,
        share_back: ({ child }) => child.returned,
        lower: ({ child }) => child.lower,
        upper: ({ child }) => child.upper,
      },
    }),
    flatTable("risk-set-curves-by-site", {
      things: ofSites,
      columns: {
        group: ({ parent }) => parent.group,
        site: ({ child }) => child.site,
        injuries: ({ child }) => child.n,
        day: ({ point }) => point.day,
        share_back: ({ point }) => point.returned,
      },
    }),
    flatTable("risk-set-hazard-ratios", {
      things: together.hazard_ratios,
      columns: {
        compared: ({ compared }) => compared,
        reference: ({ reference }) => reference,
        held_equal: () => together.held_equal.join("|"),
        intervals_take: () => together.intervals_take,
        ties: () => together.ties,
        sites: () => together.sites.length,
        injuries: () => together.injuries,
        returned: () => together.events,
        hazard_ratio: ({ estimate }) => estimate,
        lower: ({ lower }) => lower,
        upper: ({ upper }) => upper,
        standard_error_of_log: ({ standard_error }) => standard_error,
        p: ({ p }) => p,
        reason: ({ reason }) => reason,
      },
    }),
  ];
}
