// The folder of a report, and its page alone

export type { SectionId } from "../words/sections.js";
export type { RenderedFigure, ReportContext, Section } from "./context.js";
// Drawing: figures as SVG and PNG, with the bundled font
export { fontFamily } from "./font-face.js";
export { fontFaceCss } from "./font-files.js";
export { type PageInput, renderPage, sectionsOf } from "./page.js";
// The answer in words
export { plainWords } from "./plain/plain-words.js";
export { renderReport, resultsText } from "./render.js";
export { type Drawing, renderFigures } from "./render-figures.js";
export { figureAsPng, renderPng } from "./render-png.js";
export { prefixIds, renderSvg, withStyle } from "./render-svg.js";
export type { ReportFile } from "./report-file.js";
export { standalone } from "./standalone.js";
export { tableFiles } from "./tables.js";
