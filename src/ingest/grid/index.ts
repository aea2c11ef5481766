// A file as rows of text, before its columns are known

export type { Grid, GridFormat, GridRead, GridRow, MergedArea } from "./grid.js";
export { readGrid } from "./read-grid.js";
