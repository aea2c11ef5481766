import type { DataQuery } from "../../schema/data-query.js";
import type { AskAboutFile } from "./ask-about-file.js";

/**
 * A table of a study may have so many rows: a study is in memory as a whole, and with so many rows its check stays
 * under a minute and 1.5 gigabytes (measured on a computer with two cores).
 */
export const mostRows = 250_000;

/** How much of a table is read, where it is to be in memory as a whole. */
export interface RowLimit {
  /** Rows below the header; by default what a study may have. */
  readonly most?: number;
}

/** Asks about a table that has more rows; it is not read any further. */
export const askAboutRows = (
  ask: AskAboutFile,
  {
    most,
    soFar,
    table = null,
  }: { readonly most: number; readonly soFar: number; readonly table?: string | null },
): DataQuery =>
  ask({
    code: "rows-too-many",
    severity: "stop",
    facts: { most, soFar, ...(table === null ? {} : { table }) },
  });

/** Rows that a header takes in a sheet of unknown columns, where it is not yet known. */
export const header = 1;

/** Whether a sheet of unknown columns has more rows; then it asks about it. */
export function hasTooManyRows(
  rows: readonly unknown[],
  { most, ask }: { readonly most: number; readonly ask: AskAboutFile },
): boolean {
  const soFar = rows.length - header;
  if (soFar > most) askAboutRows(ask, { most, soFar });
  return soFar > most;
}
