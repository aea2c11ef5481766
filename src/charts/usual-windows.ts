import { windowOfGrade } from "../words/figures/return-curves.js";
import { type UsualWindow, windowOf } from "../words/usual-windows.js";
import type { CurveScene } from "./curve-scene.js";
import { type FixedMark, lineHeight, rectAt, textAt } from "./marks.js";
import type { Panel } from "./panels.js";
import { roughWidth } from "./rough-width.js";
import { ink } from "./theme.js";

/** The window of the only grade of a cohort, where it lies on the axis. */
function onlyWindow(grade: string, { axis, plan, theme }: CurveScene): UsualWindow | null {
  const window = theme.shown.windows ? windowOf(grade, plan) : null;
  return window && axis.x(7 * window.from_weeks) < axis.width ? window : null;
}

/** A band behind the curves where the whole cohort has one grade. */
export function windowBand(grade: string, scene: CurveScene, height: number): FixedMark[] {
  const window = onlyWindow(grade, scene);
  if (!window) return [];
  const [x, x2] = ends(window, scene);
  return [rectAt({ x, x2, y: 0, y2: height }, { color: ink.band })];
}

/** What the band is, on a line above the plot. */
export function windowLabel(grade: string, scene: CurveScene): Panel[] {
  const window = onlyWindow(grade, scene);
  if (!window) return [];
  const { small } = scene.theme.font;
  const [x, x2] = ends(window, scene);
  const text = windowOfGrade(grade);
  const half = roughWidth(text, small) / 2;
  const middle = Math.min(Math.max((x + x2) / 2, half), scene.axis.width - half);
  const y = lineHeight(small) / 2;
  return [
    {
      height: lineHeight(small),
      layers: [textAt({ x: middle, y, text, size: small, colour: ink.muted, align: "center" })],
    },
  ];
}

function ends({ from_weeks, to_weeks }: UsualWindow, { axis, from }: CurveScene): [number, number] {
  const until = to_weeks === null ? axis.width : Math.min(axis.width, axis.x(7 * to_weeks));
  return [axis.x(from) + axis.x(7 * from_weeks), axis.x(from) + until];
}
