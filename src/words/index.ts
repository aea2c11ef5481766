// Cautions and marks
export {
  cautionAgainLine,
  cautionLine,
  cautions,
  distanceCautionLine,
  figureCaution,
  syntheticLine,
} from "./cautions.js";
// Estimates, and the reasons why there is none
export { estimateWords, intervalName, intervalWords, valueWords } from "./estimates.js";
// What a figure says beside its drawing
export type { FigureText } from "./figures/figure-text.js";
export { reasons, reasonWords } from "./reasons.js";
// Sections of a report
export { type SectionId, sectionTitles } from "./sections.js";
// Published sources
export { sources } from "./sources.js";
// Units and numbers
export type { Unit } from "./units.js";
// Warnings
export { sayFacts, type WarningWords, warningWords } from "./warnings.js";
