// at a site: sums over its rows at a point

export { type AcceleratedAtOptions, acceleratedAt, roundLaws } from "./accelerated-at.js";
export { type DeletionsAtOptions, deletionsAt } from "./deletions-at.js";
export { type HazardsAtOptions, hazardsAt } from "./hazards-at.js";
export type { SiteSums } from "./site-sums.js";
