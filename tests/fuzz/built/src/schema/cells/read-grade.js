import { problem } from "./reading.js";
const prefix = /^(?:grade|grad|gr)[._\s-]*/;
const roman = { i: "1", ii: "2", iii: "3", iv: "4" };
const oneGrade = /^(i{1,3}|iv|[1-4])_?([ab]?)$/;
const severalGrades = /^(?:i{1,3}|iv|[1-4])_?[ab]?(?:_?(?:\/|,|\+|–|to|or)_?|_)(?:i{1,3}|iv|[1-4])_?[ab]?$/;
/**
 * Reads the spellings of a grade that can mean one thing only: `III`, `Gr. 3`, `grade 3`, `IVb`, `4 b`, `4B`.
 *
 * @param otherwise what to answer when the text is no spelling of a grade
 */
export const gradeReader = (otherwise) => (text) => {
    const bare = text
        .toLowerCase()
        .replace(prefix, "")
        .replaceAll(/[\s\u00a0-]+/g, "_");
    if (severalGrades.test(bare))
        return problem("grade-range");
    const found = oneGrade.exec(bare);
    if (found === null)
        return otherwise(text);
    const [, number = "", letter = ""] = found;
    const grade = roman[number] ?? number;
    if (grade === "4")
        return letter === "" ? problem("grade-without-letter") : { value: `4${letter}` };
    return letter === "" ? { value: grade } : otherwise(text);
};
