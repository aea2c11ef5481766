/** The quick reader of a field; one that never answers where the kind of the field has no usual form. */
export function quickReaderOf({ kind, minimum, maximum }) {
    switch (kind) {
        case "text":
            return (cell) => (hasPlainEdges(cell) ? cell : undefined);
        case "identifier":
            return plainIdentifier;
        case "date":
        case "period":
            return plainDate;
        case "number":
        case "bounded":
            return plainNumber({ minimum, maximum });
        case "integer":
            return plainNumber({ minimum, maximum, whole: true });
        default:
            return () => undefined;
    }
}
const zero = 48;
const nine = 57;
/** Begins and ends with a visible ASCII character, and with none by which spreadsheets are kept from formulas. */
function hasPlainEdges(cell) {
    const first = cell.charCodeAt(0);
    const last = cell.charCodeAt(cell.length - 1);
    return first > 39 && first < 127 && last > 32 && last < 127;
}
/** Ends with a digit, as no word for "nothing" does. */
function plainIdentifier(cell) {
    const last = cell.charCodeAt(cell.length - 1);
    return last >= zero && last <= nine && cell.length <= 120 && hasPlainEdges(cell) ? cell : undefined;
}
const daysOfMonth = [0, 31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
const hyphen = 45;
/** `YYYY-MM-DD`; 29 February is left to the full reader. */
function plainDate(cell) {
    if (cell.length !== 10 || cell.charCodeAt(4) !== hyphen || cell.charCodeAt(7) !== hyphen)
        return undefined;
    const year = digits(cell, 0, 4);
    const month = digits(cell, 5, 7);
    const day = digits(cell, 8, 10);
    if (year < 1950 || year > 2099 || month < 1 || month > 12 || day < 1)
        return undefined;
    return day <= daysOfMonth[month] ? cell : undefined;
}
/** The number in some digits of a text; -1 where one of them is none. */
function digits(text, from, to) {
    let value = 0;
    for (let place = from; place < to; place++) {
        const digit = text.charCodeAt(place) - zero;
        if (digit < 0 || digit > 9)
            return -1;
        value = value * 10 + digit;
    }
    return value;
}
const powersOfTen = Float64Array.from({ length: 16 }, (_, power) => 10 ** power);
/**
 * Digits, with or without a point among them: the whole number of all digits over a power of ten, which is the
 * nearest double, since both are exact.
 */
function plainNumber({ minimum = Number.NEGATIVE_INFINITY, maximum = Number.POSITIVE_INFINITY, whole = false, }) {
    return (cell) => {
        const { length } = cell;
        if (length > 15)
            return undefined;
        const at = whole ? -1 : cell.indexOf(".");
        const end = at === -1 ? length : at;
        const before = digits(cell, 0, end);
        if (end === 0 || before === -1)
            return undefined;
        if (at === -1)
            return before >= minimum && before <= maximum ? before : undefined;
        const after = digits(cell, at + 1, length);
        const decimals = length - at - 1;
        if (decimals === 0 || after === -1)
            return undefined;
        const power = powersOfTen[decimals];
        const value = (before * power + after) / power;
        return value >= minimum && value <= maximum ? value : undefined;
    };
}
