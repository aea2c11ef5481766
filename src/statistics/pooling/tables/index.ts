// tables of risk sets: from rows, coarser, added

export { addRiskSetTables } from "./add.js";
export { type BinOptions, binnedRows, coarserTable } from "./bins.js";
export { riskSetTable, type TableRows } from "./make-table.js";
export type { RiskSetTable, SortedTable } from "./risk-set-table.js";

// what they tell, each row on its own

export { incidenceOfTable, productLimitOfTable, type TableCurveOptions } from "./curves.js";
export { hazardsOfTable, type TableHazardOptions } from "./hazards.js";
export { logRankOfTable, type TableLogRankOptions } from "./log-rank.js";
