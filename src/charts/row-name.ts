import { type CurveScene, type NamedCurve, nameLines, rowHead } from "./curve-scene.js";
import { type FixedMark, lineHeight, ruleAt, textAt } from "./marks.js";

/** A sample of the curve's line, then its name: the legend stands where the row begins. */
export function rowName({ name, style }: NamedCurve, { margins, theme }: CurveScene, y: number): FixedMark[] {
  const { font, line } = theme;
  const { edge, sample, gap } = rowHead(theme);
  const start = edge - margins.left;
  const text = nameLines(name, theme);
  const strokeDash = style.dash.map((length) => length * line);
  const first = y - ((text.length - 1) * lineHeight(font.small)) / 2;
  return [
    ruleAt(
      { x: start, x2: start + sample, y, y2: y },
      { color: style.colour, strokeWidth: line, strokeDash },
    ),
    textAt({ x: start + sample + gap, y: first, text, size: font.small, colour: style.colour }),
  ];
}
