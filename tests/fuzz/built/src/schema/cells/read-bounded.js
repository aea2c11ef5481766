import { numberReader } from "./read-number.js";
import { problem } from "./reading.js";
const withSign = /^([<>])\s*([^<>=\s].*)$/;
/** A bound in canonical text: `>2`, `<1.5`. */
export const boundPattern = /^[<>]\d+(?:\.\d+)?$/;
/**
 * Reads a number, or one with `>` or `<` before it, which stays text without spaces: `>2`, `<1.5`. Other words for a
 * bound, and `≥`, which is neither, are queries.
 */
export function boundedReader({ unit, minimum = Number.NEGATIVE_INFINITY, maximum = Number.POSITIVE_INFINITY, }) {
    const read = numberReader(unit);
    return (text) => {
        const [, sign = "", rest = text] = withSign.exec(text) ?? [];
        const reading = read(rest);
        if ("problem" in reading) {
            return reading.problem === "number-with-bound"
                ? problem("number-with-bound", { form: "sign" })
                : reading;
        }
        const number = Number(reading.value);
        if (number < minimum || number > maximum) {
            return problem("number-out-of-range", { minimum, maximum, ...(unit === undefined ? {} : { unit }) });
        }
        return { value: sign === "" ? number : `${sign}${number}` };
    };
}
/** The number and the kind of bound of a typed value: 2.8, `>2`, `<1.5`. */
export function boundedOf(typed) {
    if (typeof typed === "number")
        return { value: typed, bound: "exact" };
    return { value: Number(typed.slice(1)), bound: typed.startsWith(">") ? "above" : "below" };
}
