// The folder of a report, and its page alone
export type { RenderedFigure, ReportContext, Section, SectionId } from "./context.js";
// Drawing: figures as SVG and PNG, with the bundled font
export { fontFaceCss, fontFamily } from "./font-files.js";
export { type PageInput, renderPage, sectionsOf } from "./page.js";
// The answer in words
export { plainWords } from "./plain/plain-words.js";
export { renderReport, resultsText } from "./render.js";
export { renderFigures, standalone } from "./render-figures.js";
export { renderPng } from "./render-png.js";
export { prefixIds, renderSvg, withStyle } from "./render-svg.js";
export type { ReportFile } from "./report-file.js";
export { tableFiles } from "./tables.js";
export { cautionLine, cautions, distanceCautionLine, syntheticLine } from "./words/cautions.js";
export { reasonWords } from "./words/reasons.js";
export { sayFacts } from "./words/warning-facts.js";
export { type WarningWords, warningWords } from "./words/warnings.js";
