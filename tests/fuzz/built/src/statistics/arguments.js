/**
 * A wrong question: an argument that no method can be run on. Degenerate but well-formed data are never an error;
 * they give `null` with a reason (see figure.ts).
 */
export class ArgumentError extends Error {
    name = "ArgumentError";
    /** Name of the argument as the caller wrote it, e.g. "times". */
    argument;
    /** Position in the argument, or null where the argument as a whole is at fault. */
    index;
    expected;
    found;
    constructor(problem) {
        const where = problem.index === null ? problem.argument : `${problem.argument}[${problem.index}]`;
        super(`${where} must be ${problem.expected}; found ${String(problem.found)}`);
        this.argument = problem.argument;
        this.index = problem.index;
        this.expected = problem.expected;
        this.found = String(problem.found);
    }
}
const largest = Number.MAX_VALUE;
const smallest = Number.MIN_VALUE;
const largestWhole = Number.MAX_SAFE_INTEGER;
const justBelowOne = 1 - Number.EPSILON / 2;
const kinds = {
    finite: { expected: "a finite number", least: -largest, most: largest, whole: false },
    "not negative": { expected: "a finite number, 0 or more", least: 0, most: largest, whole: false },
    positive: { expected: "a finite number above 0", least: smallest, most: largest, whole: false },
    "zero or one": { expected: "0 or 1", least: 0, most: 1, whole: true },
    code: { expected: "a whole number", least: -largestWhole, most: largestWhole, whole: true },
    count: { expected: "a whole number, 0 or more", least: 0, most: largestWhole, whole: true },
    "open share": {
        expected: "a number between 0 and 1, both excluded",
        least: smallest,
        most: justBelowOne,
        whole: false,
    },
};
/** Callers without types pass whatever they have. @throws ArgumentError for what is no array, null and a text included */
export function checkIsColumn({ name, values }) {
    if (typeof values === "object" &&
        values !== null &&
        Number.isSafeInteger(values.length))
        return;
    const found = values === null ? "null" : typeof values;
    throw new ArgumentError({ argument: name, index: null, expected: "an array of numbers", found });
}
/** Index of the first value that is not allowed, or -1. */
function firstFault(values, allowed) {
    if (holdsWholeNumbersOnly(values))
        return firstOutside(values, allowed);
    const noNumber = firstThatIsNoNumber(values);
    const { least, most, whole } = allowed;
    // one kind of array throughout, or the loop would be slow for having met several
    const own = floatsOf(noNumber < 0 ? values : first(values, noNumber));
    for (let index = 0; index < own.length; index++) {
        const value = own[index];
        if (!(value >= least && value <= most) || (whole && value !== Math.floor(value)))
            return index;
    }
    return noNumber;
}
const holdsWholeNumbersOnly = (values) => values instanceof Int32Array ||
    values instanceof Uint8Array ||
    values instanceof Uint16Array ||
    values instanceof Uint32Array;
function firstOutside(values, { least, most }) {
    // the positive ones start above 0, at the least number there is
    const [low, high] = [Math.max(-(2 ** 31), Math.ceil(least)), Math.min(2 ** 32 - 1, Math.floor(most))];
    for (let index = 0; index < values.length; index++) {
        const value = values[index];
        if (value < low || value > high)
            return index;
    }
    return -1;
}
/** Callers without types may pass what is no number, unless it is a typed array. */
function firstThatIsNoNumber(values) {
    if (values instanceof Float64Array)
        return -1;
    for (let index = 0; index < values.length; index++)
        if (typeof values[index] !== "number")
            return index;
    return -1;
}
const first = (values, count) => Array.prototype.slice.call(values, 0, count);
/** Checks each value of a column. @throws ArgumentError naming the column and the first index that fails */
export function checkColumn({ name, values }, kind) {
    checkIsColumn({ name, values });
    const index = firstFault(values, kinds[kind]);
    if (index < 0)
        return;
    throw new ArgumentError({ argument: name, index, expected: kinds[kind].expected, found: values[index] });
}
/** Checks one number. @throws ArgumentError naming it */
export function checkNumber(named, kind) {
    if (firstFault([named.value], kinds[kind]) < 0)
        return;
    const { expected } = kinds[kind];
    throw new ArgumentError({ argument: named.name, index: null, expected, found: named.value });
}
/** Checks that a column has as many values as another. @throws ArgumentError naming the shorter or longer one */
export function checkSameLength(column, first) {
    checkIsColumn(first);
    checkIsColumn(column);
    if (column.values.length !== first.values.length)
        throw new ArgumentError({
            argument: column.name,
            index: null,
            expected: `as long as ${first.name} (${first.values.length} values)`,
            found: `${column.values.length} values`,
        });
}
/** A column that has been checked as one kind of array, so that a loop over it stays quick whatever callers pass. Not a copy if it is one already. */
export const floatsOf = (values) => values instanceof Float64Array ? values : new Float64Array(values);
