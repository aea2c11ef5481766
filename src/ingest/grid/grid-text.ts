import Papa from "papaparse";
import type { Grid } from "./grid.js";

/** A grid as CSV in which every row stands where the spreadsheet shows it: blank rows come back as blank lines. */
export function gridText({ rows }: Pick<Grid, "rows">): string {
  const lines: (readonly string[])[] = [];
  for (const { row, cells } of rows) {
    while (lines.length < row - 1) lines.push([]);
    lines.push(cells);
  }
  return Papa.unparse(lines as string[][], { newline: "\n" });
}
