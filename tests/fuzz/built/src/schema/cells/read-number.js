import { problem } from "./reading.js";
const plain = /^[+-]?\d{1,15}(\.\d{1,15})?$/;
const part = String.raw `[+-]?\d+(?:[.,]\d+)?`;
const range = new RegExp(String.raw `^${part}\s*(?:-|–|—|\/|±|\+\/-|;|to|and|bis)\s*${part}\s*\p{L}*\.?$`, "iu");
const bound = /^(?:[<>≤≥~≈]=?|ca\.?|about|approx\.?|over|under|above|below|max\.?|min\.?)\s*[+-]?[.,]?\d/i;
const withUnit = /^[+-]?(?:\d+(?:[.,]\d*)?|[.,]\d+)\s*(?:\p{L}|%|°|µ)/u;
const decimalComma = /^[+-]?\d+,\d{1,2}$/;
const leadingPoint = /^[+-]?\.\d+$/;
/** Reads a number with a decimal point; a bound, a range, a unit or a decimal comma gives the query that fits. */
export function numberReader(unit) {
    const unitFact = unit === undefined ? {} : { unit };
    return (text) => {
        if (plain.test(text))
            return { value: Number(text) };
        if (decimalComma.test(text))
            return problem("number-unreadable", { form: "decimal-comma" });
        if (leadingPoint.test(text))
            return problem("number-unreadable", { form: "leading-point" });
        if (bound.test(text))
            return problem("number-with-bound");
        if (range.test(text))
            return problem("number-range");
        if (withUnit.test(text))
            return problem("number-with-unit", unitFact);
        return problem("number-unreadable");
    };
}
