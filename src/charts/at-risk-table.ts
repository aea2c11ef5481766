import { atRiskTitle, medianTitle } from "../words/figures/return-curves.js";
import { type CurveScene, columnStart, medianLines, type NamedCurve, nameLines } from "./curve-scene.js";
import { type FixedMark, lineHeight, textAt } from "./marks.js";
import type { Panel } from "./panels.js";
import { rowName } from "./row-name.js";

/** What stands for a number that is left out, where there is no room for words. */
const leftOutMark = "\u2013";

/** Height of a curve's row, by the lines of its name. */
export function rowHeight(curve: NamedCurve, { theme }: CurveScene): number {
  const { small } = theme.font;
  const tallest = Math.max(nameLines(curve.name, theme).length, medianLines(curve, theme).length);
  return Math.round(tallest * lineHeight(small) + small * 0.25);
}

/** Injuries at risk under the ticks of the axis, a row a curve, with the median time to return at the end. */
export function atRiskTable(scene: CurveScene): Panel {
  const { curves, theme, margins, axis } = scene;
  if (theme.names === "above") return tableWithNamesAbove(scene);
  const { small } = theme.font;
  const head = lineHeight(small) + small * 0.4;
  const captions = [
    textAt({
      x: small - margins.left,
      y: head / 2,
      text: atRiskTitle(scene.entry),
      size: small,
      weight: "bold",
    }),
    textAt({
      x: axis.width + columnStart(theme),
      y: head / 2,
      text: medianTitle,
      size: small,
      weight: "bold",
    }),
  ];
  let top = head;
  const rows = curves.flatMap((curve) => {
    const y = top + rowHeight(curve, scene) / 2;
    top += rowHeight(curve, scene);
    return row(curve, scene, y);
  });
  return { height: Math.round(top + small * 0.4), layers: [...captions, ...rows] };
}

/** On a narrow page: name and median on one line, the numbers under them; or the names alone where no numbers are wanted. */
function tableWithNamesAbove(scene: CurveScene): Panel {
  const { curves, theme, margins, axis } = scene;
  const { small } = theme.font;
  const line = lineHeight(small);
  const end = axis.width + margins.right - small;
  const { atRisk } = theme.shown;
  let top = atRisk ? line + small * 0.3 : 0;
  const heads = atRisk
    ? [
        textAt({
          x: small - margins.left,
          y: line / 2,
          text: atRiskTitle(scene.entry),
          size: small,
          weight: "bold",
        }),
        textAt({ x: end, y: line / 2, text: medianTitle, size: small, weight: "bold", align: "right" }),
      ]
    : [];
  const rows = curves.flatMap((curve) => {
    const median = atRisk ? medianLines(curve, theme) : [];
    const tallest = Math.max(nameLines(curve.name, theme).length, median.length) * line;
    const middle = top + tallest / 2;
    const first = middle - ((median.length - 1) * line) / 2;
    const numbers = top + tallest + line / 2;
    top += tallest + (atRisk ? line + small * 0.4 : 0);
    return [
      ...rowName(curve, scene, middle),
      ...(atRisk ? numbersAtRisk(curve.result, scene, { x: 0, y: numbers }) : []),
      ...(median.length > 0 ? [textAt({ x: end, y: first, text: median, size: small, align: "right" })] : []),
    ];
  });
  return { height: Math.round(top), layers: [...heads, ...rows] };
}

function row(curve: NamedCurve, scene: CurveScene, y: number): FixedMark[] {
  const { axis, theme } = scene;
  const { small } = theme.font;
  const median = medianLines(curve, theme);
  const first = y - ((median.length - 1) * lineHeight(small)) / 2;
  return [
    ...rowName(curve, scene, y),
    ...numbersAtRisk(curve.result, scene, { x: 0, y }),
    textAt({ x: axis.width + columnStart(theme), y: first, text: median, size: small }),
  ];
}

/** The numbers at risk under the ticks of an axis that begins at x. */
export const numbersAtRisk = (
  { number_at_risk: numbers }: NamedCurve["result"],
  { axis, theme }: CurveScene,
  { x, y }: { readonly x: number; readonly y: number },
): FixedMark[] =>
  numbers
    .filter(({ day }) => axis.ticks.includes(day))
    .map(({ day, at_risk }) =>
      textAt({
        x: x + axis.x(day),
        y,
        text: typeof at_risk === "number" ? String(at_risk) : leftOutMark,
        size: theme.font.small,
        align: "center",
      }),
    );
