import { boldWidths, regularWidths, type WidthTable } from "./text-width-table.js";

export interface TextStyle {
  /** Size in pixels. */
  readonly fontSize: number;
  readonly weight: "regular" | "bold";
}

/**
 * Width in pixels of one line of text in the bundled font: the sum of the advance widths of its characters,
 * since the bundled faces have no kerning. A character that the face lacks counts as the glyph drawn in its place.
 *
 * @example
 * textWidth("ring", { fontSize: 16, weight: "regular" }); // => 29.1640625
 */
export function textWidth(text: string, style: TextStyle): number {
  const { unitsPerEm, missing, widths } = style.weight === "bold" ? bold : regular;
  let units = 0;
  for (const character of text) units += widths.get(character.codePointAt(0) ?? 0) ?? missing;
  return (units / unitsPerEm) * style.fontSize;
}

const regular = prepared(regularWidths);
const bold = prepared(boldWidths);

function prepared({ unitsPerEm, missing, runs }: WidthTable) {
  const widths = new Map<number, number>();
  for (const run of runs) {
    const [from, ...advances] = run.split(" ").map(Number);
    for (const [index, advance] of advances.entries()) widths.set(from! + index, advance);
  }
  return { unitsPerEm, missing, widths };
}
