import { cellCodes } from "./data-query.js";
import { aboutAnswers } from "./words/about-answers.js";
import { aboutCells } from "./words/about-cells.js";
import { aboutFiles } from "./words/about-files.js";
import { aboutHabits } from "./words/about-habits.js";
import { aboutHistories } from "./words/about-histories.js";
import { aboutLinks } from "./words/about-links.js";
import { aboutMappings } from "./words/about-mappings.js";
import { aboutRows } from "./words/about-rows.js";
import { quoted } from "./words/wording.js";
/** A code without words does not compile. */
const words = {
    ...aboutFiles,
    ...aboutCells,
    ...aboutRows,
    ...aboutLinks,
    ...aboutHistories,
    ...aboutHabits,
    ...aboutAnswers,
    ...aboutMappings,
};
/** The parts of a query in words. */
export function sayQuery(query) {
    const wording = words[query.code];
    return {
        where: placeOf(query),
        found: wording.found?.(query) ?? quoted(query.found ?? ""),
        expected: wording.expected(query),
        mend: wording.mend(query),
        consequence: consequenceOf(query, wording),
    };
}
/**
 * A query as a person reads it: where, what was found and expected, then how to mend it and what happens meanwhile.
 *
 * @example
 * queryText(query)
 * // injuries.csv, row 14, column "grade": "IV" does not say whether 4a or 4b.
 * //   Write 4a (several pulleys, no visible bowstringing) or 4b (visible bowstringing, or complications); ...
 * //   The row is set aside until then.
 */
export function queryText(query) {
    const { where, found, expected, mend, consequence } = sayQuery(query);
    return `${where}: ${found} ${expected}.\n  ${mend}\n  ${consequence}`;
}
function placeOf({ file, row, column }) {
    const parts = [file, row === null ? "" : `row ${row}`, column === null ? "" : `column ${quoted(column)}`];
    return parts.filter((part) => part !== "").join(", ");
}
const usual = {
    stop: "Nothing is read until then.",
    "set-aside": "The row is set aside until then.",
    "look-at": "The row is used as it stands.",
};
function consequenceOf({ code, severity }, wording) {
    if (severity === "stop")
        return usual.stop;
    if (wording.consequence !== undefined)
        return wording.consequence;
    return severity === "look-at" && aboutOneCell.has(code)
        ? "The cell counts as blank until then; the row is used."
        : usual[severity];
}
const aboutOneCell = new Set(cellCodes);
