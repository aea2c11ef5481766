// A file as rows of text, before its columns are known

export type { Grid, GridFormat, GridRead, GridRow, MergedArea } from "./grid.js";
export { looksLikeTable } from "./looks-like-table.js";
export { readGrid } from "./read-grid.js";
export { readFileAsGrid, readWorkbook, type SheetChoice, type WorkbookRead } from "./read-workbook.js";
export { looksLikeWorkbook } from "./workbook/open-archive.js";

// A sheet taken apart: header, records, and what is left out

export type { SheetColumn } from "./shape/column-names.js";
export type { LeftOutKind, LeftOutRow } from "./shape/left-out.js";
export { mentionJoined } from "./shape/mention-joined.js";
export { type ShapedSheet, type ShapeOptions, shapeSheet } from "./shape/shape-sheet.js";
