// A file as rows of text, before its columns are known

export type { Grid, GridFormat, GridRead, GridRow, MergedArea } from "./grid.js";
export { readGrid } from "./read-grid.js";
export { readFileAsGrid, readWorkbook, type SheetChoice, type WorkbookRead } from "./read-workbook.js";
export { looksLikeWorkbook } from "./workbook/open-archive.js";
