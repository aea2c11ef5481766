import { windowOfGrade, windowStripTitle, windowTitle } from "../words/figures/return-curves.js";
import { type UsualWindow, windowOf, windowWords } from "../words/usual-windows.js";
import { type CurveScene, columnStart, type NamedCurve } from "./curve-scene.js";
import { areaOf, type FixedMark, lineHeight, pointAt, rectAt, ruleAt, textAt } from "./marks.js";
import type { Panel } from "./panels.js";
import { lines, roughWidth } from "./rough-width.js";
import { rowName } from "./row-name.js";
import { ink } from "./theme.js";

/** The window of the only grade of a cohort, where it lies on the axis. */
function onlyWindow(grade: string, { axis, plan }: CurveScene): UsualWindow | null {
  const window = windowOf(grade, plan);
  return window && axis.x(7 * window.from_weeks) < axis.width ? window : null;
}

/** A band behind the curves where the whole cohort has one grade. */
export function windowBand(grade: string, scene: CurveScene, height: number): FixedMark[] {
  const window = onlyWindow(grade, scene);
  if (!window) return [];
  const [x, x2] = ends(window, scene);
  return [rectAt({ x, x2, y: 0, y2: height }, { color: ink.band })];
}

/** Upper and lower edge of a bar, in parts of the small font's size from the middle of its row. */
const edges = { "whole row": [-0.5, 0.5], underline: [0.56, 0.82] } as const;

/** A pale bar for the usual window of a curve's grade in the row around y, with an arrow where it goes on. */
export function windowBar(curve: NamedCurve, scene: CurveScene, { y, shape }: BarPlace): FixedMark[] {
  const window = windowOf(curve.grade, scene.plan);
  if (!window) return [];
  const { small } = scene.theme.font;
  const [x, x2] = ends(window, scene);
  const [top, bottom] = edges[shape];
  const arrow = beyond(scene, y + ((top + bottom) / 2) * small, ink.muted);
  if (x >= scene.axis.width) return [arrow];
  const look = { color: curve.style.colour, opacity: shape === "underline" ? 0.45 : 0.22 };
  const bar = rectAt({ x, x2, y: y + top * small, y2: y + bottom * small }, look);
  return window.to_weeks === null ? [bar, arrow] : [bar];
}

export interface BarPlace {
  readonly y: number;
  readonly shape: keyof typeof edges;
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

const ends = ({ from_weeks, to_weeks }: UsualWindow, { axis }: CurveScene): [number, number] => [
  axis.x(7 * from_weeks),
  Math.min(axis.width, to_weeks === null ? axis.width : axis.x(7 * to_weeks)),
];

/** A slim row a grade: its usual window as a bar, and the median in these data, with the interval. */
export function windowStrip(scene: CurveScene): readonly Panel[] {
  const { curves, theme, margins, axis, plan } = scene;
  const { small } = theme.font;
  const graded = curves.filter((curve) => windowOf(curve.grade, plan) !== null);
  if (graded.length === 0) return [];
  const column = axis.width + columnStart(theme);
  const caption = lines(windowStripTitle, {
    width: axis.width + margins.left - 2 * small,
    size: small,
    weight: "bold",
  });
  const captionHeight = caption.length * lineHeight(small) + small * 0.4;
  const rowHeight = Math.round(small * 1.45);
  const rows = graded.flatMap((curve, i) => {
    const y = captionHeight + (i + 0.5) * rowHeight;
    const window = windowOf(curve.grade, plan)!;
    return [
      ...rowName(curve, scene, y),
      ...windowBar(curve, scene, { y, shape: "whole row" }),
      ...observedHalf(curve, scene, y),
      textAt({ x: column, y, text: windowWords(window), size: small, colour: ink.muted }),
    ];
  });
  const heads = [
    textAt({
      x: small - margins.left,
      y: lineHeight(small) / 2 + small * 0.1,
      text: caption,
      size: small,
      weight: "bold",
    }),
    textAt({
      x: column,
      y: lineHeight(small) / 2 + small * 0.1,
      text: windowTitle,
      size: small,
      weight: "bold",
    }),
  ];
  return [{ height: Math.round(captionHeight + graded.length * rowHeight), layers: [...heads, ...rows] }];
}

/** An arrow at the end of the axis: it goes on from here. */
const beyond = ({ axis, theme }: CurveScene, y: number, colour: string): FixedMark =>
  textAt({ x: axis.width + theme.font.small * 0.1, y, text: "\u25ba", size: theme.font.small * 0.8, colour });

function observedHalf({ result, style }: NamedCurve, scene: CurveScene, y: number): FixedMark[] {
  const { axis, theme } = scene;
  const half = result.quantiles.find(({ share }) => share === 0.5)?.days;
  if (!half || half.value === null) return [];
  const from = half.lower ?? half.value;
  const to = half.upper === null ? axis.endDay : Math.min(half.upper, axis.endDay);
  const look = { color: style.colour, strokeWidth: theme.line * 0.8 };
  const goesOn = half.upper === null ? [beyond(scene, y, style.colour)] : [];
  return [
    ruleAt({ x: axis.x(from), x2: axis.x(to), y, y2: y }, look),
    pointAt(
      { x: axis.x(half.value), y },
      {
        shape: style.shape,
        size: areaOf(theme.point),
        fill: ink.paper,
        stroke: style.colour,
        strokeWidth: theme.line * 0.7,
      },
    ),
    ...goesOn,
  ];
}
