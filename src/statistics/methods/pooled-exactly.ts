import { citations as c } from "../citations.js";
import type { Method } from "./method.js";

const rows = "the row-level functions on the same rows (tests/property/statistics/pooling), pooled_exactly";

export const pooledExactly: readonly Method[] = [
  {
    name: "tables of risk sets: made, in coarser bins, added over sites",
    functions: ["riskSetTable", "binnedRows", "coarserTable", "addRiskSetTables"],
    files: ["pooling/tables/"],
    checkedAgainst: "the table of all rows together",
    sources: [c.kaplanMeier1958],
  },
  {
    name: "product-limit curve and cumulative incidence of a table",
    functions: ["productLimitOfTable", "incidenceOfTable"],
    files: ["pooling/tables/curves.ts"],
    checkedAgainst: rows,
    sources: [c.kaplanMeier1958, c.greenwood1926, c.aalenJohansen1978],
  },
  {
    name: "log-rank of a table",
    functions: ["logRankOfTable"],
    files: ["pooling/tables/log-rank.ts"],
    checkedAgainst: rows,
    sources: [c.mantel1966, c.petoPeto1972],
  },
  {
    name: "proportional-hazards regression of a table",
    functions: ["hazardsOfTable"],
    files: ["pooling/tables/hazards.ts"],
    checkedAgainst: rows,
    sources: [c.cox1972, c.efron1977, c.breslow1974],
  },
  {
    name: "hazards regression over rounds: sums of a site at a point",
    functions: ["hazardsAt"],
    files: ["pooling/rounds/"],
    checkedAgainst: "pooled_exactly, hazardsRegression on all rows",
    sources: [c.cox1972, c.efron1977, c.linWei1989],
  },
  {
    name: "hazards regression over rounds: what the deletion of a site's people changes",
    functions: ["deletionsAt"],
    files: ["pooling/rounds/deletions-at.ts"],
    checkedAgainst: "pooled_exactly, clusteredHazardRatios on all rows",
    sources: [c.linWei1989, c.lipsitzDear1994],
  },
  {
    name: "accelerated model over rounds: sums of a site at a point",
    functions: ["acceleratedAt"],
    files: ["pooling/rounds/"],
    checkedAgainst: "pooled_exactly, acceleratedModel on all rows",
    sources: [c.burridge1981, c.linWei1989],
  },
];
