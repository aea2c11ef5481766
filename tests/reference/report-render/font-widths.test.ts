import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { textWidthTable } from "../../../src/maintenance/font-widths.js";
import { textWidth } from "../../../src/report/text-width.js";
import { boldWidths, regularWidths } from "../../../src/report/text-width-table.js";

interface Reference {
  readonly faces: Readonly<
    Record<string, { unitsPerEm: number; notdef: number; advance: Record<string, number> }>
  >;
}
const reference = JSON.parse(
  readFileSync(new URL("../data/font_widths/expected.json", import.meta.url), "utf8"),
) as Reference;

describe.each([
  { face: "Inter-Regular", table: regularWidths, weight: "regular" },
  { face: "Inter-Bold", table: boldWidths, weight: "bold" },
] as const)("widths of $face", ({ face, table, weight }) => {
  const { unitsPerEm, notdef, advance } = reference.faces[face]!;

  it("are those that fonttools 4.38.0 reads, character by character", () => {
    const ours = table.runs.flatMap((run) => {
      const [from, ...advances] = run.split(" ").map(Number);
      return advances.map((advance, index) => [String(from! + index), advance] as const);
    });
    expect(Object.fromEntries(ours)).toEqual(advance);
    expect([table.unitsPerEm, table.missing]).toEqual([unitsPerEm, notdef]);
  });

  it.each([
    "General information",
    "\u22129 (\u221222 to 4)",
    "Üb\u00e9r \u0142\u00f3d\u017a \u25ba",
    "12 \u2264 x",
    "\u4e2d",
  ])('of "%s" is the sum of its advances, fonttools 4.38.0', (text) => {
    const units = [...text].reduce((sum, one) => sum + (advance[String(one.codePointAt(0))] ?? notdef), 0);
    expect(textWidth(text, { fontSize: 20, weight })).toBeCloseTo((units * 20) / unitsPerEm, 9);
  });
});

it("the table in the source is the one made from the fonts", () => {
  const file = new URL("../../../src/report/text-width-table.ts", import.meta.url);
  expect(readFileSync(file, "utf8")).toBe(textWidthTable());
});
