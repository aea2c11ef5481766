// A figure and its looks.

export { type BalanceData, balanceFigure } from "./balance.js";
export type { Figure, VegaLiteSpec } from "./figure.js";
export { type ForestData, forestFigure } from "./forest.js";
export { type GroupStyle, groupStyles } from "./group-style.js";
export { type MissingData, missingValuesFigure } from "./missing-values.js";
export { pairedDistancesFigure } from "./paired-distances.js";
export type { PairedDistancesData } from "./paired-distances-data.js";
export { returnCurveFigure } from "./return-curve.js";
// One function a figure: results in, specification out.
export type { ReturnCurveData } from "./return-curve-data.js";
export { type Theme, themes } from "./theme.js";
