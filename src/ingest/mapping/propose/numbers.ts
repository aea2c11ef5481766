import { counted } from "../../../schema/counted.js";
import type { Field } from "../../../schema/field.js";
import { unitInWords } from "../../../schema/unit-words.js";
import { numberText } from "../apply/number-text.js";
import { unitFactor, unitNamed, unitsFor } from "../apply/units.js";
import type { DecimalSign } from "../mapping.js";
import type { Profile } from "./profile.js";

const withComma = /^\D{0,3}\d+,\d+/;
const withPoint = /^\D{0,3}\d*\.\d+/;

/** The decimal sign of the numbers in some columns, with its evidence. */
export function decimalSignOf(profiles: readonly Profile[]): {
  readonly sign: DecimalSign;
  readonly evidence: string;
} {
  const cells = profiles.flatMap(({ filled }) => filled);
  const commas = cells.filter((cell) => withComma.test(cell)).length;
  const points = cells.filter((cell) => withPoint.test(cell)).length;
  if (commas === 0)
    return {
      sign: "point",
      evidence:
        points === 0
          ? "no number has decimals"
          : `${counted(points, "number has", "numbers have")} a decimal point, none a decimal comma`,
    };
  const also =
    points === 0
      ? ""
      : `; ${counted(points, "number has", "numbers have")} a decimal point and ${points === 1 ? "is" : "are"} read in the same way`;
  return {
    sign: "comma",
    evidence: `${counted(commas, "number has", "numbers have")} a decimal comma${also}`,
  };
}

/** What a column's numbers say about their unit. */
export interface UnitEvidence {
  /** Null where it cannot be decided. */
  readonly unit: string | null;
  readonly evidence: string;
  readonly choices: readonly string[];
}

/** The unit of a column of lengths or masses: from its name, else from the range of its numbers; else undecided. */
export function unitOf(
  { read, filled }: Profile,
  { usualMedian: usual, unit: ours }: Pick<Field, "usualMedian" | "unit">,
): UnitEvidence | null {
  if (ours === undefined || usual === undefined) return null;
  const choices = unitsFor(ours);
  if (read.unit !== null && unitFactor(read.unit, ours) !== null) {
    return { unit: unitNamed(read.unit), evidence: `the header gives the unit ${read.unit}`, choices };
  }
  const median = medianOf(filled);
  if (median === null) return { unit: ours, evidence: "there are no numbers that show the unit", choices };
  const fitting = choices.filter((choice) => {
    const inOurs = median * Number(unitFactor(choice, ours) ?? 1);
    return inOurs >= usual[0] && inOurs <= usual[1];
  });
  const evidence = `the median is ${median}`;
  if (fitting.includes(ours))
    return { unit: ours, evidence: `${evidence}, as is usual in ${unitInWords(ours)}`, choices };
  return { unit: null, evidence: `${evidence}, which is unusual in ${unitInWords(ours)}`, choices };
}

/** The median of the numbers in some cells, in the unit of the file; null where there is none. */
export function medianOf(cells: readonly string[]): number | null {
  const numbers = cells
    .map((cell) =>
      numberText(cell, { decimalSign: "comma", ours: undefined, theirs: undefined, bounds: "queried" }),
    )
    .filter((text) => text !== null)
    .map(Number)
    .sort((one, other) => one - other);
  if (numbers.length === 0) return null;
  const middle = Math.floor(numbers.length / 2);
  return numbers.length % 2 === 1
    ? numbers[middle]!
    : Number(((numbers[middle - 1]! + numbers[middle]!) / 2).toPrecision(12));
}
