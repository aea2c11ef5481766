// A figure and its looks.

export { type BalanceData, balanceFigure } from "./balance.js";
export type { Figure, VegaLiteSpec } from "./figure.js";
export { type ForestData, forestFigure } from "./forest.js";
export { type GroupStyle, groupStyles } from "./group-style.js";
export { type MissingData, missingValuesFigure } from "./missing-values.js";
export { type PairedDistancesData, pairedDistancesFigure } from "./paired-distances.js";
// One function a figure: results in, specification out.
export { type ReturnCurveData, returnCurveFigure } from "./return-curve.js";
export { type Theme, themes } from "./theme.js";
