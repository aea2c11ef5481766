/** Spellings of units, by how they are called here. */
const spellings: Readonly<Record<string, string>> = {
  inch: "in",
  inches: "in",
  lbs: "lb",
  millimeter: "mm",
  millimetre: "mm",
  centimeter: "cm",
  centimetre: "cm",
  n: "N",
  newton: "N",
  kgf: "kg",
  kp: "kg",
};

/** By unit of ours (UCUM), how many of it are in one of each unit that a file may use. */
const factors: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  mm: { mm: "1", cm: "10", "0.1 mm": "0.1", in: "25.4" },
  cm: { cm: "1", mm: "0.1", m: "100", in: "2.54" },
  kg: { kg: "1", g: "0.001", lb: "0.45359237", N: "0.1019716213" },
  N: { N: "1", kg: "9.80665", lb: "4.4482216" },
};

/** The unit as it is called here. */
export const unitNamed = (unit: string): string => {
  const written = unit.trim().toLowerCase();
  return spellings[written] ?? written;
};

/** Units in which a quantity of ours may be written in a file. */
export const unitsFor = (ours: string | undefined): readonly string[] =>
  ours === undefined ? [] : Object.keys(factors[ours] ?? { [ours]: "1" });

/** By what a number in a unit of the file is multiplied; null where the two are not units of one quantity. */
export function unitFactor(theirs: string, ours: string): string | null {
  const unit = unitNamed(theirs);
  if (unit.toLowerCase() === ours.toLowerCase()) return "1";
  return factors[ours]?.[unit] ?? null;
}
