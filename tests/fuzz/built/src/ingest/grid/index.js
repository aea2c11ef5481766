// A file as rows of text, before its columns are known
export { readGrid } from "./read-grid.js";
export { readFileAsGrid, readWorkbook } from "./read-workbook.js";
export { looksLikeWorkbook } from "./workbook/open-archive.js";
export { shapeSheet } from "./shape/shape-sheet.js";
