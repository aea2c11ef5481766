// One function a figure: results in, specification out.

export { afterLossFigure } from "./after-loss.js";
export { afterReturnFigure, afterReturnFigures } from "./after-return.js";
export { balanceFigure, balanceFigures } from "./balance.js";
export { differenceFigure } from "./difference.js";
export type { Figure, VegaLiteSpec } from "./figure.js";
export { forestFigure, forestFigures } from "./forest.js";
// How a figure looks
export { type GroupStyle, groupStyles } from "./group-style.js";
export { missingValuesFigure, missingValuesFigures } from "./missing-values.js";
export { otherEndsFigure, otherEndsFigures } from "./other-ends.js";
export { pairedDistancesFigure } from "./paired-distances.js";
export { pooledCurvesFigure } from "./pooled-curves.js";
export { pooledSitesFigure } from "./pooled-sites.js";
export { returnCurveFigure } from "./return-curve.js";
export { type Preset, presets, type Shown, type Theme, themes } from "./theme.js";
