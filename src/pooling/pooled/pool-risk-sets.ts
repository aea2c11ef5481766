import type { SiteSummary } from "../summary/site-summary.js";
import { type PooledRiskSets, poolTables, type TableOfSite } from "../tables/index.js";

/** The risk-set tables of the sites added; null where no site was asked for one. */
export function poolRiskSets(sites: readonly SiteSummary[]): PooledRiskSets | null {
  if (sites.every(({ risk_sets }) => risk_sets === undefined)) return null;
  const { compare, question, confidence_level } = sites[0]!.agreed.file;
  const tables = sites.flatMap(({ site, risk_sets }): TableOfSite[] =>
    risk_sets?.leaves ? [{ site, file: `the summary of ${site}`, risk_sets: risk_sets.table }] : [],
  );
  return {
    without: sites.flatMap(({ site, risk_sets }) =>
      risk_sets?.leaves ? [] : [{ site, reason: risk_sets?.reason ?? ("not-asked" as const) }],
    ),
    together:
      tables.length === 0
        ? null
        : poolTables(tables, {
            groups: compare.groups,
            reference: compare.reference,
            shareBack: question.share_back,
            level: confidence_level,
            ties: "efron",
          }),
  };
}
