import type { Json } from "./figure.js";
import type { GroupStyle } from "./group-style.js";
import { type FixedMark, type Layer, lineHeight, ruleAt, textAt } from "./marks.js";
import { spread } from "./spread.js";
import type { Theme } from "./theme.js";
import type { ValueAxis } from "./value-axis.js";

/** A share over time as it is drawn. */
export interface StepCurve {
  readonly points: readonly StepPoint[];
  readonly lastDay: number;
  readonly style: GroupStyle;
  /** A step would say that nothing happened between two days of which alone a coarse curve tells; the curve of a model is smooth. */
  readonly interpolate: "linear" | "monotone" | "step-after";
}

interface StepPoint {
  readonly day: number;
  readonly share: number;
  readonly lower: number | null;
  readonly upper: number | null;
  /** Fewer than five are at risk until the next point. */
  readonly few?: boolean;
}

/** Day and share as encodings of a field. */
export interface StepAxes {
  readonly day: Json;
  readonly share: (field: string) => Json;
}

const inPerCent = "format(100 * datum.value, '.0f') + ' %'";

/** An axis of shares, labelled in per cent unless it is said how, with a grid. */
export const shareAxis =
  ({ domain, ticks }: ValueAxis, labelExpr: string = inPerCent) =>
  (field: string): Json => ({
    field,
    type: "quantitative",
    scale: { domain, nice: false },
    axis: {
      title: null,
      values: ticks,
      grid: true,
      ticks: false,
      domain: false,
      labelExpr,
    },
  });

/** From none to all. */
export const wholeAxis: ValueAxis = { domain: [0, 1], ticks: [0, 0.25, 0.5, 0.75, 1] };
export const wholeShare = shareAxis(wholeAxis);

/** Where a limit is not defined the band has a gap; each piece holds until the next point. */
export function stepBand(
  { points, lastDay, interpolate, style }: StepCurve,
  { axes: { day, share }, opacity }: { readonly axes: StepAxes; readonly opacity: number },
): Layer {
  const values: Record<string, number>[] = [];
  let piece = 0;
  points.forEach((point, i) => {
    const { lower, upper } = point;
    if (lower === null || upper === null) {
      piece += 1;
      return;
    }
    const next = points[i + 1];
    values.push({ piece, day: point.day, lower, upper });
    if (!next || next.lower === null || next.upper === null) {
      values.push({ piece, day: next?.day ?? lastDay, lower, upper });
    }
  });
  return {
    data: { values },
    mark: { type: "area", interpolate, color: style.colour, opacity },
    encoding: {
      x: day,
      y: share("lower"),
      y2: { field: "upper" },
      detail: { field: "piece", type: "nominal" },
    },
  };
}

/** How a line is drawn. */
interface LineLook {
  readonly axes: StepAxes;
  readonly width: number;
}

/** The line of the estimate, in the look of its group, to the last day. */
export function stepLine(
  { points, lastDay, style, interpolate }: StepCurve,
  { axes: { day, share }, width }: LineLook,
): Layer {
  return {
    data: { values: toLastDay(points, lastDay).map((point) => ({ day: point.day, share: point.share })) },
    mark: {
      type: "line",
      interpolate,
      color: style.colour,
      strokeWidth: width,
      strokeDash: style.dash.map((length) => length * width),
    },
    encoding: { x: day, y: share("share") },
  };
}

function toLastDay(points: readonly StepPoint[], lastDay: number): readonly StepPoint[] {
  const last = points.at(-1)!;
  return lastDay > last.day ? [...points, { ...last, day: lastDay }] : points;
}

/** The same in pieces, thin and pale where few are at risk. */
export const stepLines = (curve: StepCurve, { axes, width }: LineLook): Layer[] =>
  pieces(curve).map(({ few, points }) => {
    const line = stepLine(
      { ...curve, points, lastDay: points.at(-1)!.day },
      { axes, width: few ? width * 0.45 : width },
    );
    return few ? { ...line, mark: { ...(line.mark as Layer), opacity: 0.7 } } : line;
  });

interface Piece {
  readonly few: boolean;
  readonly points: readonly StepPoint[];
}

/** Runs of points at which few are at risk, and at which more are; each goes on to the first point of the next. */
function pieces({ points, lastDay }: StepCurve): readonly Piece[] {
  const all = toLastDay(points, lastDay);
  const starts = all.flatMap((point, i) =>
    i === 0 || (i < points.length && (point.few ?? false) !== (all[i - 1]!.few ?? false)) ? [i] : [],
  );
  return starts.map((start, i) => ({
    few: all[start]!.few ?? false,
    points: all.slice(start, (starts[i + 1] ?? all.length - 1) + 1),
  }));
}

/** A name at the end of what it names. */
export interface EndLabel {
  readonly text: readonly string[];
  readonly colour: string;
  /** Where the thing ends, in pixels. */
  readonly x: number;
  readonly y: number;
}

/** Room right of the plot: where it ends, and where the names begin. */
interface LabelRoom {
  readonly bend: number;
  readonly x: number;
  readonly height: number;
  /** How far names may reach beyond the plot, above and below. */
  readonly beyond: number;
  readonly theme: Theme;
}

/**
 * The names right of the plot, moved apart where ends lie close together, with a thin line to each end. Names too long to find room
 * are left to the rows that carry them too.
 */
export function endLabels(
  labels: readonly EndLabel[],
  { bend, x, height, beyond, theme }: LabelRoom,
): FixedMark[] {
  const { base } = theme.font;
  const heights = labels.map(({ text }) => text.length * lineHeight(base));
  if (heights.reduce((sum, own) => sum + own, 0) > height + 2 * beyond) return [];
  const centres = spread(
    labels.map(({ y }, i) => ({ wanted: y, height: heights[i]! })),
    { from: -beyond, to: height + beyond },
  );
  return labels.flatMap((label, i) => labelAt(label, { centre: centres[i]!, bend, x, theme }));
}

function labelAt(
  { text, colour, x: endX, y }: EndLabel,
  { centre, bend, x, theme }: Omit<LabelRoom, "height" | "beyond"> & { readonly centre: number },
): FixedMark[] {
  const { base, small } = theme.font;
  const look = { color: colour, strokeWidth: theme.thin, opacity: 0.7 };
  const first = centre - ((text.length - 1) * lineHeight(base)) / 2;
  return [
    ruleAt({ x: endX, x2: bend, y, y2: y }, { ...look, strokeDash: [theme.thin, theme.thin * 2] }),
    ruleAt({ x: bend, x2: x - small * 0.3, y, y2: centre }, look),
    textAt({ x, y: first, text, size: base, weight: "bold", colour }),
  ];
}
