import { type End, endsShown, endTitle, otherEndsText, shortEndTitle } from "../words/figures/other-ends.js";
import { type CurvesShown, shareTitle } from "../words/figures/return-curves.js";
import { type CurveScene, columnStart, curveScene, labelLines, type NamedCurve } from "./curve-scene.js";
import type { Figure } from "./figure.js";
import { lineHeight, textAt } from "./marks.js";
import { page, roomBeside } from "./page.js";
import { blank, type Panel } from "./panels.js";
import { type Fitting, inParts } from "./parts.js";
import { belowCurves } from "./return-curve.js";
import { lines } from "./rough-width.js";
import { endLabels, type StepCurve, shareAxis, stepBand, stepLine, wholeAxis } from "./step-curve.js";
import type { Theme } from "./theme.js";
import { linearAxis, type ValueAxis } from "./value-axis.js";

/** Height of the panel of an end beside that of the return, and of the return's beside that of a figure with one panel. */
const endHeight = 0.6;
const returnHeight = 0.6;

/**
 * Share back over time and, each in a panel of its own below it, the share that came to each competing end, with the numbers at risk.
 * The panels of the ends have one scale, up to the highest limit.
 */
export const otherEndsFigure = (data: CurvesShown, theme: Theme): Figure =>
  drawn(data, { ends: endsShown(data), theme }).figure;

/** Where the theme sets the height of the page, the ends alone on as many pages as it takes: the return has a figure of its own. */
export function otherEndsFigures(data: CurvesShown, theme: Theme): readonly Figure[] {
  if (theme.height === null) return [otherEndsFigure(data, theme)];
  return inParts(endsShown(data), (ends) => drawn(data, { ends, theme }));
}

function drawn(data: CurvesShown, { ends, theme }: { ends: readonly End[]; theme: Theme }): Fitting {
  const text = otherEndsText(data);
  const scene = curveScene(data, theme);
  const layout = { margins: scene.margins, theme };
  const isRoomy = ends.every((end) => titleLines(endTitle(end, data), scene).length === 1);
  const back = { title: shareTitle(data.plan), axis: wholeAxis, part: 1, curves: scene.curves.map(returnOf) };
  const shown = [
    ...(theme.height === null ? [back] : []),
    ...ends.map((end) => ({
      title: isRoomy ? endTitle(end, data) : shortEndTitle(end),
      axis: axisOfEnds(scene),
      part: endHeight,
      curves: scene.curves.map((curve) => endOf(curve, end)),
    })),
  ];
  const titles = shown.map(({ title }) => titlePanel(title, scene));
  const gap = blank(Math.round(theme.font.base * 0.8));
  const around = [...titles, ...shown.map(() => gap)];
  const below = belowCurves(scene, (under) => roomBeside([...around, ...under], text, layout));
  const parts = shown.reduce((sum, { part }) => sum + part, 0);
  const room = roomBeside([...around, ...below], text, layout);
  const height = Number.isFinite(room)
    ? Math.max(room, 4 * theme.font.base)
    : returnHeight * parts * theme.plotHeight;
  const panels = shown.flatMap(({ axis, part, curves }, i) => [
    titles[i]!,
    gap,
    sharePanel(curves, scene, {
      axis,
      height: Math.floor((height * part) / parts),
      look: i === shown.length - 1 ? "labelled" : "bare",
    }),
  ]);
  return {
    figure: page(text, [...panels, ...below], layout),
    fits: room >= 0.8 * theme.plotHeight * shown.length,
  };
}

/** One scale for all ends, so that they can be compared with each other. */
function axisOfEnds({ curves }: CurveScene): ValueAxis {
  const points = curves.flatMap(({ result }) => result.other_ends.flatMap((end) => end.points));
  const highest = Math.max(0.1, ...points.map(({ share, upper }) => upper ?? share));
  return highest > 0.8 ? wholeAxis : linearAxis([highest], 4);
}

interface NamedSteps extends StepCurve {
  readonly name: string;
}

const returnOf = ({ result, name, style }: NamedCurve): NamedSteps => ({
  name,
  style,
  lastDay: result.last_day,
  interpolate: "step-after",
  points: result.points.map(({ day, returned, returned_lower, returned_upper }) => ({
    day,
    share: returned,
    lower: returned_lower,
    upper: returned_upper,
  })),
});

/** A group in which nobody came to the end has a line at none, without limits. */
const endOf = ({ result, name, style }: NamedCurve, end: End): NamedSteps => ({
  name,
  style,
  lastDay: result.last_day,
  interpolate: "step-after",
  points: [
    { day: 0, share: 0, lower: null, upper: null },
    ...(result.other_ends.find((one) => one.end === end)?.points ?? []),
  ],
});

const titleStart = ({ font }: Theme): number => -font.small * 3.8;

const titleLines = (title: string, { theme, margins }: CurveScene): readonly string[] =>
  lines(title, {
    width: theme.width - margins.left - titleStart(theme) - theme.font.small,
    size: theme.font.base,
  });

function titlePanel(title: string, scene: CurveScene): Panel {
  const { theme } = scene;
  const { base } = theme.font;
  const text = titleLines(title, scene);
  return {
    height: Math.round(base + text.length * lineHeight(base)),
    layers: [textAt({ x: titleStart(theme), y: base, text, size: base, baseline: "top" })],
  };
}

function sharePanel(
  curves: readonly NamedSteps[],
  { axis: time, theme }: CurveScene,
  {
    axis,
    height,
    look,
  }: { readonly axis: ValueAxis; readonly height: number; readonly look: "labelled" | "bare" },
): Panel {
  const drawn = curves.filter(({ points }) => points.length > 0);
  const axes = { day: time.encoding("day", look), share: shareAxis(axis) };
  const top = axis.domain[1];
  const labels = drawn.map(({ name, style, points, lastDay }) => ({
    text: labelLines(name, theme),
    colour: style.colour,
    x: time.x(lastDay),
    y: (1 - points.at(-1)!.share / top) * height,
  }));
  return {
    height,
    layers: [
      ...(theme.shown.band
        ? drawn.map((curve) => stepBand(curve, { axes, opacity: curves.length > 3 ? 0.08 : 0.13 }))
        : []),
      ...drawn.map((curve) => stepLine(curve, { axes, width: theme.line })),
      ...(theme.names === "above"
        ? []
        : endLabels(labels, {
            bend: time.width,
            x: time.width + columnStart(theme),
            height,
            beyond: theme.font.base * 0.5,
            theme,
          })),
    ],
  };
}
