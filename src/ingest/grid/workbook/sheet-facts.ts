import type { MergedArea } from "../grid.js";
import { type PaddedForm, paddedForm, paddedText } from "./padded-numbers.js";
import { showsDayOnly, styleFormats } from "./style-formats.js";
import { attributeOf, saysYes, type Tag, tagsOf, xmlText } from "./xml-tags.js";

/** What a sheet says that the reader of its values does not tell. */
export interface SheetFacts {
  /** Hidden rows, counted from 1. */
  readonly hiddenRows: ReadonlySet<number>;
  /** Places of hidden columns, counted from 0. */
  readonly hiddenColumns: readonly number[];
  readonly merged: readonly MergedArea[];
  /** Text of cells in error, formulas without a result, dates written as text and padded numbers, by `cellKey`. */
  readonly texts: ReadonlyMap<number, string>;
  /** Cells with a fraction of a day that is not shown, by `cellKey`. */
  readonly shownAsDay: ReadonlySet<number>;
  /** Farthest row and column that are named, counted from 1; a row is infinite where an address is none. */
  readonly lastRow: number;
  readonly lastColumn: number;
}

/** No sheet has more rows or columns. ECMA-376 leaves it open; these are the bounds of common spreadsheet programs. */
export const sheetBounds = { rows: 1_048_576, columns: 16_384 } as const;

/** What the styles of a workbook say about how numbers are shown, by the style that a cell names. */
interface ShownStyles {
  readonly padded: ReadonlyMap<string, PaddedForm>;
  readonly days: ReadonlySet<string>;
}

function shownStyles(styles: string): ShownStyles {
  const padded = new Map<string, PaddedForm>();
  const days = new Set<string>();
  for (const [style, format] of styleFormats(styles).entries()) {
    const form = paddedForm(format.code);
    if (form !== null) padded.set(String(style), form);
    if (showsDayOnly(format)) days.add(String(style));
  }
  return { padded, days };
}

/** One number for a cell: its row counted from 1, its column from 0. */
export const cellKey = (row: number, column: number): number => row * sheetBounds.columns + column;

/** Texts by `cellKey` as columns and texts by row. */
export function textsByRow(
  texts: SheetFacts["texts"],
): ReadonlyMap<number, readonly (readonly [column: number, text: string])[]> {
  const rows = new Map<number, [number, string][]>();
  for (const [key, text] of texts) {
    const row = Math.floor(key / sheetBounds.columns);
    const cells = rows.get(row) ?? [];
    cells.push([key % sheetBounds.columns, text]);
    rows.set(row, cells);
  }
  return rows;
}

/** Hidden columns are listed one by one: of a range to the end of the sheet, no more than these. */
const columnsListed = 1_000;

/**
 * What one sheet part says about hidden rows and columns, joined cells, cells in error and its extent.
 *
 * @source ECMA-376-1:2016, 18.3.1 (row, col, mergeCell, c), 18.18.11 (cell types)
 */
export function sheetFacts(xml: string, styles: string): SheetFacts {
  const facts = {
    hiddenRows: new Set<number>(),
    hiddenColumns: [] as number[],
    merged: [] as MergedArea[],
    texts: new Map<number, string>(),
    shownAsDay: new Set<number>(),
    lastRow: 0,
    lastColumn: 0,
  };
  const cells = cellWatcher(xml, { seen: facts, shown: shownStyles(styles) });
  for (const tag of tagsOf(xml)) {
    if (tag.name === "row" && tag.kind !== "close") {
      const row = rowNumber(attributeOf(tag, "r") ?? String(facts.lastRow + 1));
      facts.lastRow = Math.max(facts.lastRow, row);
      if (saysYes(attributeOf(tag, "hidden"))) facts.hiddenRows.add(row);
    } else if (tag.name === "col" && saysYes(attributeOf(tag, "hidden"))) {
      facts.hiddenColumns.push(...columnsFrom(tag));
    } else if (tag.name === "mergeCell") {
      const area = areaOf(attributeOf(tag, "ref") ?? "");
      if (area !== null) facts.merged.push(area);
    } else cells(tag);
  }
  return facts;
}

/** A row that says no number lies beyond every bound: what the reader would make of it is not tried. */
const rowNumber = (text: string): number =>
  /^\d{1,9}$/.test(text) ? Number(text) : Number.POSITIVE_INFINITY;

function columnsFrom(tag: Tag): readonly number[] {
  const [first, last] = [Number(attributeOf(tag, "min")), Number(attributeOf(tag, "max"))];
  const count = Math.min(last - first + 1, columnsListed);
  return count > 0 ? Array.from({ length: count }, (_, i) => first - 1 + i) : [];
}

/** Row (from 1) and column (from 0) of an address such as `B12`; null for what is none. */
export function addressOf(text: string): { readonly row: number; readonly column: number } | null {
  const parts = /^([A-Z]{1,7})(\d{1,9})$/.exec(text);
  if (parts === null) return null;
  let column = 0;
  for (const letter of parts[1]!) column = column * 26 + letter.charCodeAt(0) - 64;
  return { row: Number(parts[2]), column: column - 1 };
}

function areaOf(reference: string): MergedArea | null {
  const [first, last] = reference.split(":").map(addressOf);
  if (first == null || last == null) return null;
  return { firstRow: first.row, lastRow: last.row, firstColumn: first.column, lastColumn: last.column };
}

interface CellsSeen {
  readonly texts: Map<number, string>;
  readonly shownAsDay: Set<number>;
  lastRow: number;
  lastColumn: number;
}

/** What is known of a cell while its tags go by. */
interface CellSeen {
  readonly key: number;
  readonly type: string;
  readonly form: PaddedForm | undefined;
  readonly isDay: boolean;
  formula: string | null;
  value: string | null;
}

/** Follows the tags of cells: their addresses, and the texts that a reader of values leaves out. */
function cellWatcher(
  xml: string,
  { seen, shown }: { readonly seen: CellsSeen; readonly shown: ShownStyles },
): (tag: Tag) => void {
  let cell: CellSeen | null = null;
  let opened = 0;
  return (tag) => {
    const { name, kind } = tag;
    if (name === "c" && kind !== "close") cell = openCell(tag, seen, shown);
    if (cell === null) return;
    if (name === "f" || name === "v") {
      if (kind === "open") opened = tag.to;
      else takeContent(cell, name, kind === "empty" ? "" : xmlText(xml.slice(opened, tag.from)));
    }
    if (name === "c" && kind === "close") {
      closeCell(cell, seen);
      cell = null;
    }
  };
}

function openCell(tag: Tag, seen: CellsSeen, shown: ShownStyles): CellSeen {
  const address = attributeOf(tag, "r") ?? "";
  const at = addressOf(address);
  if (address !== "" && at === null) seen.lastRow = Number.POSITIVE_INFINITY;
  if (at !== null) {
    seen.lastRow = Math.max(seen.lastRow, at.row);
    seen.lastColumn = Math.max(seen.lastColumn, at.column + 1);
  }
  const style = attributeOf(tag, "s") ?? "";
  return {
    key: at === null ? -1 : cellKey(at.row, at.column),
    type: attributeOf(tag, "t") ?? "n",
    form: shown.padded.get(style),
    isDay: shown.days.has(style),
    formula: null,
    value: null,
  };
}

function takeContent(cell: CellSeen, name: "f" | "v", text: string): void {
  if (name === "f") cell.formula = text;
  else cell.value = text;
}

function closeCell(cell: CellSeen, seen: CellsSeen): void {
  const text = textOf(cell);
  if (text !== null) seen.texts.set(cell.key, text);
  if (cell.isDay && cell.value?.includes(".")) seen.shownAsDay.add(cell.key);
}

/** A formula with no result stands as the formula: it is not the same as a blank cell. */
function textOf({ type, form, formula, value }: CellSeen): string | null {
  // an empty result is a result for text only; some writers leave it empty until a spreadsheet has computed it
  const hasNoResult = value === null ? type !== "inlineStr" : value === "" && type !== "str";
  if (formula !== null && hasNoResult) return `=${formula}`;
  if (value === null || value === "") return null;
  if (type === "e") return value;
  if (type === "n") return form === undefined ? null : paddedText(value, form);
  return type === "d" ? value.replace(/T00:00(?::00(?:\.0+)?)?Z?$/, "") : null;
}
