// the table of a site, and what of it may leave

export { type Beside, riskSetsOf, type TableAsked } from "./make-risk-sets.js";
export {
  type EndsTold,
  noTableReasons,
  type RiskSetCell,
  type RiskSets,
  type RiskSetsMade,
  riskSetsSchema,
  siteRiskSetsSchema,
} from "./risk-sets.js";

// the tables of several sites

export { tableProblems } from "./check-table.js";
export { poolTables, type TablesAsked } from "./pool-tables.js";
export { type PooledRiskSets, type PooledTables, pooledRiskSetsSchema } from "./pooled-tables.js";
export type { TableOfSite } from "./tables-of-sites.js";
