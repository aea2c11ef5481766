// What a site contributes to a pool: figures on the scale on which they are pooled, with their variance matrix

export { empiricalLogit, isAtTheEdge, type ScaledFigure, varianceAtTheEdge } from "./empirical-logit.js";
export { productsWithin, withVariances } from "./products-within.js";
