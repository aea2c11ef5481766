import Papa from "papaparse";
import { nearest } from "../../schema/near.js";
import type { Table } from "../../schema/tables.js";
import { quotedCells } from "./quoted-cells.js";

/** In the order in which they are preferred when they give equally many known columns. */
export const delimiters = [",", ";", "\t", "|"] as const;
export type Delimiter = (typeof delimiters)[number];

/** A header may hold so many characters: some hundred thousand columns of names. */
const longestHeader = 16_000_000;
/** Where its quotation marks are not closed, so much is looked at. */
const lookedAt = 50_000;
/** How many rows are looked at for a header that does not come first. */
const rowsLookedAt = 20;

/** A column name as it is compared: small letters, _ for spaces and hyphens. */
export const comparedName = (name: string): string =>
  name
    .replaceAll(/[\u200b\ufeff]/g, "")
    .trim()
    .toLowerCase()
    .replaceAll(/[\s\u00a0_-]+/g, "_");

/** The header line taken apart. */
export interface Header {
  readonly delimiter: Delimiter;
  /** Names as they stand in the file, blank ones at the end left out. */
  readonly names: readonly string[];
  /** How many of them are columns of the table. */
  readonly recognised: number;
}

/**
 * Takes the header line apart by the delimiter that gives most known column names, or most columns where none is
 * known. Decimal commas further down cannot mislead it.
 *
 * @param text begins with the header line
 */
export function readHeader(text: string, table: Pick<Table, "fields">): Header {
  const known = new Set(table.fields.map(({ name }) => name));
  const readings = delimiters.map((delimiter): Header => {
    const names = firstRow(text, delimiter);
    return { delimiter, names, recognised: names.filter((name) => known.has(comparedName(name))).length };
  });
  return readings.reduce((best, reading) => {
    if (reading.recognised !== best.recognised) return reading.recognised > best.recognised ? reading : best;
    return reading.recognised === 0 && reading.names.length > best.names.length ? reading : best;
  });
}

function firstRow(text: string, delimiter: Delimiter): readonly string[] {
  const row = text.slice(0, firstRowOf(text, delimiter).end).replaceAll(/\r\n?/g, "\n");
  const [names = []] = Papa.parse<string[]>(row, { delimiter, newline: "\n", preview: 1 }).data;
  const last = names.findLastIndex((name) => name.trim() !== "");
  return names.slice(0, last + 1);
}

/** Where the first row of a text ends, and whether more text could not change that. */
function firstRowOf(text: string, delimiter: Delimiter): { readonly end: number; readonly isWhole: boolean } {
  let line = lineEndFrom(text, 0);
  for (const { from, end, opened } of quotedCells(text, delimiter)) {
    if (line !== null && line.from < from) return { end: line.end, isWhole: true };
    if (opened !== "closed") return { end: lookedAt, isWhole: opened !== "unclosed" };
    if (line !== null && line.from < end) line = lineEndFrom(text, end);
  }
  return line === null ? { end: longestHeader, isWhole: false } : { end: line.end, isWhole: true };
}

function lineEndFrom(text: string, start: number): { readonly from: number; readonly end: number } | null {
  const lineEnd = /\r\n?|\n/g;
  lineEnd.lastIndex = start;
  const found = lineEnd.exec(text);
  return found === null ? null : { from: found.index, end: lineEnd.lastIndex };
}

/** Whether the first row of a text is there as a whole, whichever the delimiter is. */
export const holdsFirstRow = (text: string): boolean =>
  delimiters.every((delimiter) => firstRowOf(text, delimiter).isWhole);

/** Row number of a line further down that looks like the header, or null. */
export function headerFurtherDown(text: string, table: Pick<Table, "fields">): number | null {
  const enough = Math.ceil(table.fields.filter(({ required }) => required).length / 2);
  const lines = text.split(/\r\n?|\n/, rowsLookedAt);
  const place = lines.findIndex((line) => readHeader(line, table).recognised >= Math.max(1, enough));
  return place <= 0 ? null : place + 1;
}

/** What is the matter with a header. */
export type HeaderFault =
  | { readonly code: "column-twice"; readonly column: string }
  | { readonly code: "column-missing"; readonly column: string; readonly near: string | null }
  | {
      readonly code: "column-unknown";
      readonly column: string;
      readonly place: number;
      readonly near: string | null;
    };

/** The columns to read, as places in a row, and every fault of the header. */
export interface MatchedHeader {
  readonly columns: readonly { readonly name: string; readonly place: number }[];
  readonly faults: readonly HeaderFault[];
}

/** Matches names to the table's fields, whatever their case, with spaces or hyphens for underscores. */
export function matchHeader(names: readonly string[], table: Pick<Table, "fields">): MatchedHeader {
  const fieldNames = new Set(table.fields.map(({ name }) => name));
  const seen = new Map<string, number>();
  const faults: HeaderFault[] = [];
  const unknown: { readonly column: string; readonly compared: string; readonly place: number }[] = [];
  for (const [place, column] of names.entries()) {
    const compared = comparedName(column);
    if (compared !== "" && seen.has(compared)) faults.push({ code: "column-twice", column });
    if (!seen.has(compared)) seen.set(compared, place);
    if (!fieldNames.has(compared)) unknown.push({ column, compared, place: place + 1 });
  }
  const absent = table.fields.filter(({ name }) => !seen.has(name));
  for (const { name, required } of absent) {
    if (!required) continue;
    const near = nearest(
      name,
      unknown.map(({ compared }) => compared),
    );
    faults.push({
      code: "column-missing",
      column: name,
      near: near === null ? null : (unknown.find(({ compared }) => compared === near)?.column ?? near),
    });
  }
  const absentNames = absent.map(({ name }) => name);
  for (const { column, compared, place } of unknown)
    faults.push({ code: "column-unknown", column, place, near: nearest(compared, absentNames) });
  const columns = table.fields.flatMap(({ name }) => {
    const place = seen.get(name);
    return place === undefined ? [] : [{ name, place }];
  });
  return { columns, faults };
}
