import { paddedText } from "./padded-numbers.js";
import { attributeOf, saysYes, tagsOf, xmlText } from "./xml-tags.js";
/** No sheet has more rows or columns. ECMA-376 leaves it open; these are the bounds of common spreadsheet programs. */
export const sheetBounds = { rows: 1_048_576, columns: 16_384 };
const noStyles = new Map();
/** One number for a cell: its row counted from 1, its column from 0. */
export const cellKey = (row, column) => row * sheetBounds.columns + column;
/** Texts by `cellKey` as columns and texts by row. */
export function textsByRow(texts) {
    const rows = new Map();
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
export function sheetFacts(xml, padded = noStyles) {
    const facts = {
        hiddenRows: new Set(),
        hiddenColumns: [],
        merged: [],
        texts: new Map(),
        lastRow: 0,
        lastColumn: 0,
    };
    const cells = cellWatcher(xml, { seen: facts, padded });
    for (const tag of tagsOf(xml)) {
        if (tag.name === "row" && tag.kind !== "close") {
            const row = rowNumber(attributeOf(tag, "r") ?? String(facts.lastRow + 1));
            facts.lastRow = Math.max(facts.lastRow, row);
            if (saysYes(attributeOf(tag, "hidden")))
                facts.hiddenRows.add(row);
        }
        else if (tag.name === "col" && saysYes(attributeOf(tag, "hidden"))) {
            facts.hiddenColumns.push(...columnsFrom(tag));
        }
        else if (tag.name === "mergeCell") {
            const area = areaOf(attributeOf(tag, "ref") ?? "");
            if (area !== null)
                facts.merged.push(area);
        }
        else
            cells(tag);
    }
    return facts;
}
/** A row that says no number lies beyond every bound: what the reader would make of it is not tried. */
const rowNumber = (text) => /^\d{1,9}$/.test(text) ? Number(text) : Number.POSITIVE_INFINITY;
function columnsFrom(tag) {
    const [first, last] = [Number(attributeOf(tag, "min")), Number(attributeOf(tag, "max"))];
    const count = Math.min(last - first + 1, columnsListed);
    return count > 0 ? Array.from({ length: count }, (_, place) => first - 1 + place) : [];
}
/** Row (from 1) and column (from 0) of an address such as `B12`; null for what is none. */
export function addressOf(text) {
    const parts = /^([A-Z]{1,7})(\d{1,9})$/.exec(text);
    if (parts === null)
        return null;
    let column = 0;
    for (const letter of parts[1])
        column = column * 26 + letter.charCodeAt(0) - 64;
    return { row: Number(parts[2]), column: column - 1 };
}
function areaOf(reference) {
    const [first, last] = reference.split(":").map(addressOf);
    if (first == null || last == null)
        return null;
    return { firstRow: first.row, lastRow: last.row, firstColumn: first.column, lastColumn: last.column };
}
/** Follows the tags of cells: their addresses, and the texts that a reader of values leaves out. */
function cellWatcher(xml, { seen, padded }) {
    let cell = null;
    let opened = 0;
    return (tag) => {
        const { name, kind, from, to } = tag;
        if (name === "c" && kind !== "close") {
            const address = attributeOf(tag, "r") ?? "";
            const at = addressOf(address);
            if (address !== "" && at === null)
                seen.lastRow = Number.POSITIVE_INFINITY;
            if (at !== null) {
                seen.lastRow = Math.max(seen.lastRow, at.row);
                seen.lastColumn = Math.max(seen.lastColumn, at.column + 1);
            }
            const key = at === null ? -1 : cellKey(at.row, at.column);
            const form = padded.size === 0 ? undefined : padded.get(attributeOf(tag, "s") ?? "");
            cell = { key, type: attributeOf(tag, "t") ?? "n", form, formula: null, value: null };
        }
        if (cell === null)
            return;
        if (name === "f" || name === "v") {
            if (kind === "open")
                opened = to;
            if (kind === "empty" && name === "f")
                cell.formula = "";
            if (kind === "empty" && name === "v")
                cell.value = "";
            if (kind === "close" && name === "f")
                cell.formula = xmlText(xml.slice(opened, from));
            if (kind === "close" && name === "v")
                cell.value = xmlText(xml.slice(opened, from));
        }
        if (name === "c" && kind === "close") {
            const text = textOf(cell);
            if (text !== null)
                seen.texts.set(cell.key, text);
            cell = null;
        }
    };
}
/** A formula with no result stands as the formula: it is not the same as a blank cell. */
function textOf({ type, form, formula, value }) {
    // an empty result is a result for text only; some writers leave it empty until a spreadsheet has computed it
    const hasNoResult = value === null ? type !== "inlineStr" : value === "" && type !== "str";
    if (formula !== null && hasNoResult)
        return `=${formula}`;
    if (value === null || value === "")
        return null;
    if (type === "e")
        return value;
    if (type === "n")
        return form === undefined ? null : paddedText(value, form);
    return type === "d" ? value.replace(/T00:00(?::00(?:\.0+)?)?Z?$/, "") : null;
}
