import type { CurvePoint } from "../study/results.js";
import { isSome } from "../words/counts.js";
import { fewAtRisk } from "../words/figures/return-curves.js";
import { mostBoxes } from "../words/known-returns.js";
import { type CurveScene, columnStart, labelLines, type NamedCurve } from "./curve-scene.js";
import type { Json } from "./figure.js";
import { areaOf, type FixedMark, type Layer } from "./marks.js";
import type { Panel } from "./panels.js";
import { endLabels, type StepCurve, stepBand, stepLines } from "./step-curve.js";
import { ink } from "./theme.js";

interface CurvePanelLook {
  readonly height: number;
  readonly behind: readonly FixedMark[];
  /** Where the names of the curves stand. */
  readonly labels: "at the ends" | "elsewhere";
}

/** Bands, steps, ends of follow-up and the points where half are back, with the curves' names at their ends. */
export function curvePanel(scene: CurveScene, { height, behind, labels }: CurvePanelLook): Panel {
  const { curves, theme } = scene;
  const { shown } = theme;
  const drawn = curves.filter(({ result }) => result.points.length > 0);
  const axes = { day: day(scene), share: scene.share };
  const layers = [
    ...behind,
    frame(scene),
    ...(shown.band
      ? drawn.map((curve) =>
          stepBand(stepCurve(curve, scene), { axes, opacity: curves.length > 3 ? 0.1 : 0.15 }),
        )
      : []),
    ...(curves.length > mostBoxes || !shown.band ? [] : drawn.map((curve) => spansAlone(curve, scene))),
    ...drawn.flatMap((curve) => stepLines(stepCurve(curve, scene), { axes, width: theme.line })),
    ...drawn
      .filter(({ result }) => result.family !== "standardised" && result.coarse !== true && !scene.isModel)
      .map((curve) => endsOfFollowUp(curve, scene)),
    ...drawn.map((curve) => halfBack(curve, scene)),
    ...(labels === "at the ends" ? directLabels(drawn, scene, height) : []),
  ];
  return { height, layers };
}

const day = ({ axis }: CurveScene): Json => axis.encoding("day", "labelled");

/** The line at one half; it also draws the axes where there is no curve. */
const frame = (scene: CurveScene): Layer => ({
  data: { values: [{ day: scene.from, end: scene.from + scene.axis.endDay, half: 0.5 }] },
  mark: {
    type: "rule",
    color: ink.axis,
    strokeWidth: scene.theme.thin,
    strokeDash: [4 * scene.theme.thin, 3 * scene.theme.thin],
  },
  encoding: { x: day(scene), x2: { field: "end" }, y: scene.share("half") },
});

/** What the spans leave open of each share, as boxes: flat where they settle it, since nobody knows where in a box the curve runs. */
function spansAlone({ result, style }: NamedCurve, scene: CurveScene): Layer {
  const { bounds } = result.alone ?? { bounds: [] };
  const values = bounds.flatMap(({ day: from, lower, upper }, i) => {
    const to = bounds[i + 1]?.day ?? result.last_day;
    return to > from ? [{ day: from, to, lower, upper }] : [];
  });
  const { thin } = scene.theme;
  return {
    data: { values },
    mark: {
      type: "rect",
      fill: style.colour,
      fillOpacity: 0.05,
      stroke: style.colour,
      strokeWidth: thin * 0.8,
      strokeOpacity: 0.7,
      opacity: 1,
    },
    encoding: {
      x: day(scene),
      x2: { field: "to" },
      y: scene.share("lower"),
      y2: { field: "upper" },
    },
  };
}

function stepCurve({ result, style }: NamedCurve, { isModel }: CurveScene): StepCurve {
  return {
    points: result.points.map((point, i) => ({
      day: point.day,
      share: point.returned,
      lower: point.returned_lower,
      upper: point.returned_upper,
      few: !isModel && fewAtRisk(result, i),
    })),
    lastDay: isModel ? (result.points.at(-1)?.day ?? result.last_day) : result.last_day,
    style,
    interpolate: result.coarse === true ? "linear" : isModel ? "monotone" : "step-after",
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
    encoding: { x: day(scene), y: scene.share("returned") },
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
      values: days
        .flatMap((value) => (value !== null && value <= scene.from + scene.axis.endDay ? [value] : []))
        .map((value) => ({ day: value, half: halfAt(value) })),
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
    encoding: { x: day(scene), y: scene.share("half") },
  };
}

function directLabels(
  curves: readonly NamedCurve[],
  { axis, theme }: CurveScene,
  height: number,
): FixedMark[] {
  const labels = curves.map(({ name, result, style }) => ({
    text: labelLines(name, theme),
    colour: style.colour,
    x: axis.x(result.last_day),
    y: (1 - result.points.at(-1)!.returned) * height,
  }));
  const x = axis.width + columnStart(theme);
  return endLabels(labels, { bend: axis.width, x, height, beyond: theme.font.base, theme });
}
