import type { Field } from "../field.js";
import { numberReader } from "./read-number.js";
import { type CellReader, problem } from "./reading.js";

const withSign = /^([<>])\s*([^<>=\s].*)$/;

/**
 * Reads a number, or one with `>` or `<` before it, which stays text without spaces: `>2`, `<1.5`. Other words for a
 * bound, and `≥`, which is neither, are queries.
 */
export function boundedReader({
  unit,
  minimum = Number.NEGATIVE_INFINITY,
  maximum = Number.POSITIVE_INFINITY,
}: Pick<Field, "unit" | "minimum" | "maximum">): CellReader {
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
