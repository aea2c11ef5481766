// One function a figure: results in, specification out.

export { afterLossFigure } from "./after-loss.js";
export { afterReturnFigure } from "./after-return.js";
export { balanceFigure } from "./balance.js";
export { differenceFigure } from "./difference.js";
export type { Figure, VegaLiteSpec } from "./figure.js";
export { forestFigure } from "./forest.js";
// How a figure looks
export { type GroupStyle, groupStyles } from "./group-style.js";
export { missingValuesFigure } from "./missing-values.js";
export { otherEndsFigure } from "./other-ends.js";
export { pairedDistancesFigure } from "./paired-distances.js";
export { pooledCurvesFigure } from "./pooled-curves.js";
export { pooledSitesFigure } from "./pooled-sites.js";
export { returnCurveFigure } from "./return-curve.js";
export { type Theme, themes } from "./theme.js";
