// the table of a site, and what of it may leave

export { noTableReasons, type RiskSetsMade, riskSetsOf, type TableAsked } from "./make-risk-sets.js";
export { type EndsTold, type RiskSetCell, type RiskSets, riskSetsSchema } from "./risk-sets.js";

// the tables of several sites

export { type PooledTables, poolTables, type TablesAsked } from "./pool-tables.js";
export type { TableOfSite } from "./tables-of-sites.js";
