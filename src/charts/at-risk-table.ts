import { atRiskTitle, atRiskWithWindowsTitle, medianTitle } from "../words/figures/return-curves.js";
import { type CurveScene, columnStart, medianLines, type NamedCurve, nameLines } from "./curve-scene.js";
import { type FixedMark, lineHeight, textAt } from "./marks.js";
import type { Panel } from "./panels.js";
import { rowName } from "./row-name.js";
import { windowBar } from "./usual-windows.js";

/** What stands for a number that is left out, where there is no room for words. */
const leftOutMark = "\u2013";

/** Height of a curve's row, by the lines of its name. */
export function rowHeight(curve: NamedCurve, { theme }: CurveScene): number {
  const { small } = theme.font;
  const tallest = Math.max(nameLines(curve.name, theme).length, medianLines(curve, theme).length);
  return Math.round(tallest * lineHeight(small) + small * 0.25);
}

/**
 * Injuries at risk under the ticks of the axis, a row a curve, with the median time to return at the end;
 * on a page of given height the usual windows of the grades lie under the numbers.
 */
export function atRiskTable(scene: CurveScene, windows: "under the numbers" | "elsewhere"): Panel {
  const { curves, theme, margins, axis } = scene;
  const { small } = theme.font;
  const head = lineHeight(small) + small * 0.4;
  const bars = (curve: NamedCurve, y: number) =>
    windows === "elsewhere" ? [] : windowBar(curve, scene, { y, shape: "underline" });
  const barred = curves.some((curve) => bars(curve, 0).length > 0);
  const caption = barred ? atRiskWithWindowsTitle : atRiskTitle;
  const captions = [
    textAt({ x: small - margins.left, y: head / 2, text: caption, size: small, weight: "bold" }),
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
    return [...bars(curve, y), ...row(curve, scene, y)];
  });
  return { height: Math.round(top + small * 0.4), layers: [...captions, ...rows] };
}

function row(curve: NamedCurve, scene: CurveScene, y: number): FixedMark[] {
  const { axis, theme } = scene;
  const { small } = theme.font;
  const median = medianLines(curve, theme);
  const first = y - ((median.length - 1) * lineHeight(small)) / 2;
  return [
    ...rowName(curve, scene, y),
    ...numbersAtRisk(curve.result, scene, y),
    textAt({ x: axis.width + columnStart(theme), y: first, text: median, size: small }),
  ];
}

const numbersAtRisk = (
  { number_at_risk: numbers }: NamedCurve["result"],
  { axis, theme }: CurveScene,
  y: number,
): FixedMark[] =>
  numbers
    .filter(({ day }) => axis.ticks.includes(day))
    .map(({ day, at_risk }) =>
      textAt({
        x: axis.x(day),
        y,
        text: typeof at_risk === "number" ? String(at_risk) : leftOutMark,
        size: theme.font.small,
        align: "center",
      }),
    );
