// one proportion

export { type ClusteredHits, type ClusteredShare, clusteredShare } from "./clustered-share.js";
export {
  type ProportionCount,
  type ProportionMethod,
  type ProportionOptions,
  proportionInterval,
} from "./one-proportion.js";

// two independent proportions

export {
  type FourCellsChiSquare,
  fourCellsChiSquare,
  type GroupCounts,
  type ProportionTrend,
  proportionsTest,
  proportionTrend,
} from "./chi-square.js";
export { type ConditionalOddsRatio, conditionalOddsRatio } from "./conditional-odds-ratio.js";
export { type FisherTest, fisher } from "./fisher.js";
export type { FourCells } from "./four-cells.js";
export {
  type OddsRatioOptions,
  oddsRatio,
  type RiskDifference,
  riskDifference,
  riskRatio,
  type TableRatio,
} from "./two-proportions.js";

// two paired proportions

export {
  type PairedCells,
  type PairedDifference,
  type PairedOddsRatio,
  type PairedTest,
  pairedDifference,
  pairedOddsRatio,
  pairedTest,
} from "./paired.js";
