import { quotedCells } from "./line-ends.js";
/** A cell may hold at most so many characters; a quoted one that is longer lacks its closing mark. */
const longestCell = 1_000_000;
/**
 * Finds the last whole row of a block of text when more text follows: it ends behind the last line end that lies
 * outside quoted cells; 0 where no row ends in the block. A quoted cell that the block does not close belongs to what
 * follows, unless it is too long to be a cell: then the whole block is taken, and is not balanced.
 *
 * @param text begins with a row
 */
export function wholeRows(text, delimiter) {
    // a CR at the very end may be half of a CRLF, and a quotation mark there half of an escaped one
    const certain = text.endsWith("\r") ? text.length - 1 : text.length;
    let end = 0;
    let from = 0;
    for (const cell of quotedCells(text, delimiter)) {
        end = Math.max(end, lineEndBetween(text, { from, to: cell.from }));
        if (cell.end === null || cell.end >= certain) {
            const isTooLong = text.length - cell.from > longestCell;
            return isTooLong ? { end: text.length, isBalanced: false } : { end, isBalanced: true };
        }
        from = cell.end;
    }
    return { end: Math.max(end, lineEndBetween(text, { from, to: certain })), isBalanced: true };
}
/** Behind the last LF or CR between two places; 0 where there is none. */
function lineEndBetween(text, { from, to }) {
    const between = text.slice(from, to);
    const place = Math.max(between.lastIndexOf("\n"), between.lastIndexOf("\r"));
    return place === -1 ? 0 : from + place + 1;
}
