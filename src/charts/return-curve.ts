import { type CurvesShown, curveText, shareTitle, timeTitle } from "../words/figures/return-curves.js";
import { nobodyAnalysed } from "../words/terms.js";
import { atRiskTable } from "./at-risk-table.js";
import { curvePanel } from "./curve-panel.js";
import { type CurveScene, curveScene, labelLines } from "./curve-scene.js";
import type { Figure } from "./figure.js";
import { gradePanelsFigure } from "./grade-panels.js";
import { lineHeight, textAt } from "./marks.js";
import { page, roomBeside, stretchedHeight } from "./page.js";
import { blank, type Panel } from "./panels.js";
import { ink, type Theme } from "./theme.js";
import { windowBand, windowLabel } from "./usual-windows.js";

/**
 * Share back by the weeks since the clock's start: steps with their interval, ends of follow-up, the point where half
 * are back, the numbers at risk under the axis. Grades come with their usual windows, marked common practice: in a strip
 * of their own, or under the numbers at risk where the theme sets the height of the page.
 *
 * A family without curves gives a figure that says so.
 */
export function returnCurveFigure(data: CurvesShown, theme: Theme): Figure {
  const text = curveText(data);
  const scene = curveScene(data, theme);
  const layout = { margins: scene.margins, theme };
  if (scene.curves.length === 0) return page(text, [nothingToDraw(scene)], layout);
  if (scene.curves.length > 1 && scene.curves.every(({ grade }) => grade !== null))
    return gradePanelsFigure(data, theme);
  const grade = data.onlyGrade ?? "";
  const above = [
    shareTitlePanel(scene),
    ...windowLabel(grade, scene),
    blank(Math.round(theme.font.base * 0.8)),
  ];
  const below = belowCurves(scene, (parts) => roomBeside([...above, ...parts], text, layout));
  const height = stretchedHeight([...above, ...below], text, layout);
  const labels = theme.names === "beside" ? "at the ends" : "elsewhere";
  const behind = windowBand(grade, scene, height);
  return page(text, [...above, curvePanel(scene, { height, behind, labels }), ...below], layout);
}

/**
 * Title of the axis and numbers at risk. On a page of given height the numbers are left to the tables where they would take the room
 * of the curves; the names of the curves stay.
 */
export function belowCurves(
  scene: CurveScene,
  roomAfter: (parts: readonly Panel[]) => number,
): readonly Panel[] {
  const { theme } = scene;
  const title = timeTitlePanel(scene);
  const all = [title, blank(Math.round(theme.font.small * 0.5)), atRiskTable(scene)];
  if (!theme.shown.atRisk) return theme.names === "above" ? all : [title];
  if (roomAfter(all) >= theme.plotHeight) return all;
  const fits = namesHeight(scene) <= roomAfter([title]) + theme.font.base;
  return fits ? [title] : [title, atRiskTable(namesAlone(scene))];
}

/** Height of the names at the ends of the curves. */
const namesHeight = ({ curves, theme }: CurveScene): number =>
  curves.reduce((sum, { name }) => sum + labelLines(name, theme).length * lineHeight(theme.font.base), 0);

const namesAlone = (scene: CurveScene): CurveScene => ({
  ...scene,
  theme: { ...scene.theme, names: "above", shown: { ...scene.theme.shown, atRisk: false } },
});

function shareTitlePanel({ plan, theme }: CurveScene): Panel {
  const { base, small } = theme.font;
  const height = lineHeight(base);
  return {
    height,
    layers: [textAt({ x: -small * 3.8, y: height / 2, text: shareTitle(plan), size: base })],
  };
}

/** Room for the labels of the axis, then its title. */
export function timeTitlePanel({ axis, plan, theme }: CurveScene): Panel {
  const { base, small } = theme.font;
  const y = small * 1.9 + lineHeight(base) / 2;
  const title = textAt({ x: axis.width / 2, y, text: timeTitle(plan), size: base, align: "center" });
  return { height: Math.round(y + lineHeight(base)), layers: [title] };
}

function nothingToDraw({ margins, theme }: CurveScene): Panel {
  const height = theme.plotHeight / 2;
  const x = (theme.width - 2 * margins.left) / 2;
  return {
    height,
    layers: [
      textAt({
        x,
        y: height / 2,
        text: nobodyAnalysed,
        size: theme.font.base,
        colour: ink.muted,
        align: "center",
      }),
    ],
  };
}
