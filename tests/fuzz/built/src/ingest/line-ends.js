/**
 * Makes all line ends outside quoted cells LF (inside they are the cell's own), and finds quotation marks that are
 * not closed at the end of a cell. A quotation mark opens a cell only at its very start, as in RFC 4180; elsewhere
 * it is an ordinary character.
 */
export function evenLineEnds(text, delimiter) {
    if (!text.includes('"'))
        return { text: text.includes("\r") ? lf(text) : text };
    const outside = [];
    const pieces = [];
    let from = 0;
    for (const cell of quotedCells(text, delimiter)) {
        const before = lf(text.slice(from, cell.from));
        outside.push(before);
        if (cell.end === null)
            return { openedInRow: countLineEnds(outside) + 1 };
        pieces.push(before, text.slice(cell.from, cell.end));
        from = cell.end;
    }
    pieces.push(lf(text.slice(from)));
    return { text: pieces.join("") };
}
/**
 * The quoted cells of a text, in order: from their opening mark to just behind the closing one. The end is null where
 * the mark is not closed, or not at the end of a cell; such a cell is the last.
 */
export function* quotedCells(text, delimiter) {
    let mark = text.indexOf('"');
    while (mark !== -1) {
        let end = mark + 1;
        if (opensCell(text, { at: mark, delimiter })) {
            end = endOfQuoted(text, { from: mark + 1, delimiter });
            yield { from: mark, end };
            if (end === null)
                return;
        }
        mark = text.indexOf('"', end);
    }
}
const lf = (text) => (text.includes("\r") ? text.replaceAll(/\r\n?/g, "\n") : text);
function opensCell(text, { at, delimiter }) {
    const before = text[at - 1];
    return before === undefined || before === delimiter || before === "\n" || before === "\r";
}
/** Place just behind the closing mark; null where it is missing or followed by anything but the end of the cell. */
function endOfQuoted(text, { from, delimiter }) {
    let mark = text.indexOf('"', from);
    while (mark !== -1 && text[mark + 1] === '"')
        mark = text.indexOf('"', mark + 2);
    if (mark === -1)
        return null;
    let next = mark + 1;
    while (text[next] === " ")
        next += 1;
    const after = text[next];
    return after === undefined || after === delimiter || after === "\n" || after === "\r" ? mark + 1 : null;
}
const countLineEnds = (pieces) => pieces.reduce((count, piece) => count + piece.split("\n").length - 1, 0);
