import fc from "fast-check";
import Papa from "papaparse";
import { describe, expect, it } from "vitest";
import { tidy } from "../../../src/schema/cells/reading.js";
import { csvText, withoutGuards } from "../../../src/schema/csv-text.js";
import { visibleText } from "../../../src/schema/hidden-characters.js";

const seed = 20_240_306;
/** Pieces of which awkward cells are made. */
const piece = fc.constantFrom(
  ..."=+-@\uff1d\uff0b\uff0d\uff20;|,\t\r\n\"' a1\u00a0\u200b\u0000\ufeff".split(""),
  "=1+1",
  "-3.5",
  "\r\n",
  "''",
  '""',
  "cmd|' /C calc'!A0",
);
const cell = fc.oneof(
  { weight: 4, arbitrary: fc.array(piece, { maxLength: 8 }).map((pieces) => pieces.join("")) },
  { weight: 1, arbitrary: fc.string({ maxLength: 10, unit: "binary" }) },
  { weight: 1, arbitrary: fc.double({ noNaN: true, noDefaultInfinity: true }).map(String) },
);
const table = fc.array(fc.array(cell, { minLength: 3, maxLength: 3 }), { minLength: 1, maxLength: 4 });

/** Characters that cannot be seen are written out, and line ends are one. */
const asWritten = (text: string) => visibleText(text.replaceAll("\r\n", "\n"));

const textOf = (rows: readonly (readonly string[])[]) => csvText(["a", "b", "c"], rows);

/** What stands before a formula without keeping it from being one. */
const skipped = /^[\s\u200b\p{Cc}"]+/u;

/** Parts of a file that a program set to a separator would take for formulas; a number is none. */
function formulasIn(text: string, delimiter: string): readonly string[] {
  const parts = Papa.parse<string[]>(text, { delimiter }).data.flat();
  return parts
    .map((part) => part.replace(skipped, ""))
    .filter((part) => /^[=+\-@\uff1d\uff0b\uff0d\uff20]/.test(part))
    .filter((part) => !/^-?\d+(\.\d+)?([eE][+-]?\d+)?"?(,|$)/.test(part));
}

describe("a CSV for people", () => {
  it.each([
    "a;=1+1",
    "a\t=1+1",
    "a|@sum",
    "a; \uff1d1+1",
    'a;"=1+1"',
    "a\n=1+1",
    "a\r\n  +1",
    "=1",
    " =1",
    '"=1"',
    "-3.5;=1",
    "\t=1",
    "a;'=1",
  ])("%j is no formula under any separator, and reads back", (text) => {
    const csv = textOf([[text, "b", text]]);
    for (const delimiter of [",", ";", "\t", "|"]) expect(formulasIn(csv, delimiter)).toEqual([]);
    expect(withoutGuards(Papa.parse<string[]>(csv, { delimiter: "," }).data[1]![0]!)).toBe(asWritten(text));
  });

  it("holds for cells of any kind", () => {
    fc.assert(
      fc.property(table, (rows) => {
        const csv = textOf(rows);
        for (const delimiter of [",", ";", "\t", "|"]) expect(formulasIn(csv, delimiter)).toEqual([]);
      }),
      { seed, numRuns: 3000 },
    );
  });

  it("reads back exactly what was there", () => {
    fc.assert(
      fc.property(table, (rows) => {
        const read = Papa.parse<string[]>(textOf(rows), { delimiter: ",", newline: "\n" }).data;
        expect(read.slice(1, -1).map((row) => row.map(withoutGuards))).toEqual(
          rows.map((row) => row.map(asWritten)),
        );
      }),
      { seed, numRuns: 3000 },
    );
  });

  it.each(["-3.5", "-1e-7", "2.4", "0"])("the number %s stays a number", (number) => {
    expect(csvText(["n"], [[Number(number)]]).split("\n")[1]).toBe(String(Number(number)));
    expect(tidy(number)).toBe(number);
  });
});
