import type { CurvePoint, CurveResult } from "../study/results.js";
import { isSome } from "../words/counts.js";
import { type CurveScene, columnStart, labelLines, type NamedCurve } from "./curve-scene.js";
import type { Json } from "./figure.js";
import { areaOf, type Layer, lineHeight, ruleAt, textAt } from "./marks.js";
import type { Panel } from "./page.js";
import { spread } from "./spread.js";
import { ink, type Theme } from "./theme.js";

/** Bands, steps, ends of follow-up and the points where half are back, with the curves' names at their ends. */
export function curvePanel(
  scene: CurveScene,
  { height, behind }: { height: number; behind: readonly Layer[] },
): Panel {
  const { curves } = scene;
  const drawn = curves.filter(({ result }) => result.points.length > 0);
  const layers = [
    ...behind,
    frame(scene),
    ...drawn.map((curve) => band(curve, scene)),
    ...drawn.map((curve) => steps(curve, scene)),
    ...drawn
      .filter(({ result }) => result.family !== "standardised" && result.coarse !== true)
      .map((curve) => endsOfFollowUp(curve, scene)),
    ...drawn.map((curve) => halfBack(curve, scene)),
    ...directLabels(drawn, scene, height),
  ];
  return { height, layers };
}

const day = ({ axis }: CurveScene): Json => axis.encoding("day", "labelled");
const share = (field: string): Json => ({
  field,
  type: "quantitative",
  scale: { domain: [0, 1], nice: false },
  axis: {
    title: null,
    values: [0, 0.25, 0.5, 0.75, 1],
    grid: true,
    ticks: false,
    domain: false,
    labelExpr: "format(100 * datum.value, '.0f') + ' %'",
  },
});

/** The line at one half; it also draws the axes where there is no curve. */
const frame = (scene: CurveScene): Layer => ({
  data: { values: [{ day: 0, end: scene.axis.endDay, half: 0.5 }] },
  mark: {
    type: "rule",
    color: ink.axis,
    strokeWidth: scene.theme.thin,
    strokeDash: [4 * scene.theme.thin, 3 * scene.theme.thin],
  },
  encoding: { x: day(scene), x2: { field: "end" }, y: share("half") },
});

/** A step would say that nobody came back between two days of which alone a coarse curve tells. */
const between = ({ coarse }: CurveResult): string => (coarse === true ? "linear" : "step-after");

/** Where a limit is not defined the band has a gap; each piece holds until the next point. */
function band({ result, style }: NamedCurve, scene: CurveScene): Layer {
  const values: Record<string, number>[] = [];
  let piece = 0;
  result.points.forEach((point, index) => {
    const until = result.points[index + 1]?.day ?? result.last_day;
    const { returned_lower: lower, returned_upper: upper } = point;
    if (lower === null || upper === null) {
      piece += 1;
      return;
    }
    values.push({ piece, day: point.day, lower, upper });
    const next = result.points[index + 1];
    if (!next || next.returned_lower === null || next.returned_upper === null) {
      values.push({ piece, day: until, lower, upper });
    }
  });
  return {
    data: { values },
    mark: {
      type: "area",
      interpolate: between(result),
      color: style.colour,
      opacity: scene.curves.length > 3 ? 0.1 : 0.15,
    },
    encoding: {
      x: day(scene),
      y: share("lower"),
      y2: { field: "upper" },
      detail: { field: "piece", type: "nominal" },
    },
  };
}

function steps({ result, style }: NamedCurve, scene: CurveScene): Layer {
  const { line } = scene.theme;
  const last = result.points.at(-1)!;
  const end = result.last_day > last.day ? [{ ...last, day: result.last_day }] : [];
  return {
    data: {
      values: [...result.points, ...end].map((point) => ({ day: point.day, returned: point.returned })),
    },
    mark: {
      type: "line",
      interpolate: between(result),
      color: style.colour,
      strokeWidth: line,
      strokeDash: style.dash.map((length) => length * line),
    },
    encoding: { x: day(scene), y: share("returned") },
  };
}

function endsOfFollowUp({ result, style }: NamedCurve, scene: CurveScene): Layer {
  const { line, thin } = scene.theme;
  const ended = ({ censored }: CurvePoint) => isSome(censored);
  return {
    data: {
      values: result.points.filter(ended).map((point) => ({ day: point.day, returned: point.returned })),
    },
    mark: {
      type: "tick",
      orient: "vertical",
      size: line * 4.5,
      thickness: thin * 1.2,
      color: style.colour,
      opacity: 1,
    },
    encoding: { x: day(scene), y: share("returned") },
  };
}

/** Paper inside, so that the mark reads on its own curve. */
function halfBack({ result, style }: NamedCurve, scene: CurveScene): Layer {
  const { line, point } = scene.theme;
  const days = result.quantiles.filter((quantile) => quantile.share === 0.5).map((half) => half.days.value);
  // a coarse curve is told to be beyond the half only at one of its points
  const halfAt = (day: number) =>
    result.coarse === true ? (result.points.find((told) => told.day === day)?.returned ?? 0.5) : 0.5;
  return {
    data: {
      values: days.filter((value) => value !== null).map((value) => ({ day: value, half: halfAt(value) })),
    },
    mark: {
      type: "point",
      shape: style.shape,
      size: areaOf(point * 1.15),
      fill: ink.paper,
      stroke: style.colour,
      strokeWidth: line * 0.8,
      opacity: 1,
    },
    encoding: { x: day(scene), y: share("half") },
  };
}

/**
 * The names right of the plot, moved apart where curves end close together, with a thin line to the curve's end.
 * Names too long to find room are left to the rows below, which carry them too.
 */
function directLabels(curves: readonly NamedCurve[], { axis, theme }: CurveScene, height: number): Layer[] {
  const { base } = theme.font;
  const blocks = curves.map(({ name, result }) => ({
    text: labelLines(name, theme),
    wanted: (1 - result.points.at(-1)!.returned) * height,
  }));
  const heights = blocks.map(({ text }) => text.length * lineHeight(base));
  if (heights.reduce((sum, own) => sum + own, 0) > height + 2 * base) return [];
  const centres = spread(
    blocks.map(({ wanted }, index) => ({ wanted, height: heights[index]! })),
    {
      from: -base,
      to: height + base,
    },
  );
  return curves.flatMap((curve, index) => {
    const place = { ...blocks[index]!, centre: centres[index]!, endX: axis.x(curve.result.last_day) };
    return labelled(curve, { ...place, x: axis.width + columnStart(theme) }, theme);
  });
}

interface LabelPlace {
  readonly text: readonly string[];
  readonly wanted: number;
  readonly centre: number;
  readonly endX: number;
  readonly x: number;
}

function labelled(
  { style }: NamedCurve,
  { text, wanted, centre, endX, x }: LabelPlace,
  theme: Theme,
): Layer[] {
  const { base, small } = theme.font;
  const look = { color: style.colour, strokeWidth: theme.thin, opacity: 0.7 };
  const bend = x - columnStart(theme);
  const first = centre - ((text.length - 1) * lineHeight(base)) / 2;
  return [
    ruleAt(
      { x: endX, x2: bend, y: wanted, y2: wanted },
      { ...look, strokeDash: [theme.thin, theme.thin * 2] },
    ),
    ruleAt({ x: bend, x2: x - small * 0.3, y: wanted, y2: centre }, look),
    textAt({ x, y: first, text, size: base, weight: "bold", colour: style.colour }),
  ];
}
