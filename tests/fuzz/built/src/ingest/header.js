import Papa from "papaparse";
import { nearest } from "../schema/near.js";
/** In the order in which they are preferred when they give equally many known columns. */
export const delimiters = [",", ";", "\t", "|"];
/** No table has so long a header: what is longer is not looked at. */
const longestHeader = 50_000;
/** How many rows are looked at for a header that does not come first. */
const rowsLookedAt = 20;
/** A column name as it is compared: small letters, _ for spaces and hyphens. */
export const comparedName = (name) => name
    .replaceAll(/[\u200b\ufeff]/g, "")
    .trim()
    .toLowerCase()
    .replaceAll(/[\s\u00a0_-]+/g, "_");
/**
 * Takes the header line apart by the delimiter that gives most known column names, or most columns where none is
 * known. Decimal commas further down cannot mislead it.
 *
 * @param text begins with the header line
 */
export function readHeader(text, table) {
    const start = text.slice(0, longestHeader).replaceAll(/\r\n?/g, "\n");
    const known = new Set(table.fields.map(({ name }) => name));
    const readings = delimiters.map((delimiter) => {
        const names = firstRow(start, delimiter);
        return { delimiter, names, known: names.filter((name) => known.has(comparedName(name))).length };
    });
    return readings.reduce((best, reading) => {
        if (reading.known !== best.known)
            return reading.known > best.known ? reading : best;
        return reading.known === 0 && reading.names.length > best.names.length ? reading : best;
    });
}
function firstRow(text, delimiter) {
    const [names = []] = Papa.parse(text, { delimiter, newline: "\n", preview: 1 }).data;
    const last = names.findLastIndex((name) => name.trim() !== "");
    return names.slice(0, last + 1);
}
/** Row number of a line further down that looks like the header, or null. */
export function headerFurtherDown(text, table) {
    const enough = Math.ceil(table.fields.filter(({ required }) => required).length / 2);
    const lines = text.slice(0, longestHeader).split(/\r\n?|\n/, rowsLookedAt);
    const place = lines.findIndex((line) => readHeader(line, table).known >= Math.max(1, enough));
    return place <= 0 ? null : place + 1;
}
/** Matches names to the table's fields, whatever their case, with spaces or hyphens for underscores. */
export function matchHeader(names, table) {
    const fieldNames = new Set(table.fields.map(({ name }) => name));
    const seen = new Map();
    const faults = [];
    const unknown = [];
    for (const [place, written] of names.entries()) {
        const name = comparedName(written);
        if (name !== "" && seen.has(name))
            faults.push({ code: "column-twice", column: written });
        if (!seen.has(name))
            seen.set(name, place);
        if (!fieldNames.has(name))
            unknown.push(written);
    }
    const absent = table.fields.filter(({ name }) => !seen.has(name));
    for (const { name, required } of absent) {
        if (!required)
            continue;
        const near = nearest(name, unknown.map(comparedName));
        faults.push({
            code: "column-missing",
            column: name,
            near: near === null ? null : asWritten(near, unknown),
        });
    }
    for (const column of unknown) {
        const near = nearest(comparedName(column), absent.map(({ name }) => name));
        faults.push({ code: "column-unknown", column, place: names.indexOf(column) + 1, near });
    }
    const columns = table.fields.flatMap(({ name }) => {
        const place = seen.get(name);
        return place === undefined ? [] : [{ name, place }];
    });
    return { columns, faults };
}
const asWritten = (compared, names) => names.find((name) => comparedName(name) === compared) ?? compared;
