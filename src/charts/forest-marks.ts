import type { Json } from "./figure.js";
import type { ForestRow } from "./forest-rows.js";
import { areaOf, type Layer, textAt } from "./marks.js";
import { ink, type Theme } from "./theme.js";
import type { ValueAxis } from "./value-axis.js";

export interface ForestDrawing {
  readonly x: (field: string) => Json;
  readonly axis: ValueAxis;
  readonly theme: Theme;
  readonly width: number;
}

/** The interval and the estimate on it; what lies beyond the axis, or has no limit, ends in an arrow. */
export function rowMarks(row: ForestRow, y: number, drawing: ForestDrawing): Layer[] {
  const { value, lower, upper } = row.effect.estimate;
  if (value === null) return [];
  const [first, last] = drawing.axis.domain;
  const hasInterval = lower !== null || upper !== null;
  const from = hasInterval ? (lower ?? -Infinity) : value;
  const to = hasInterval ? (upper ?? Infinity) : value;
  const arrow = { y, size: drawing.theme.font.small * 0.8, colour: row.style.colour } as const;
  const onAxis = value >= first && value <= last;
  return [
    ...(hasInterval
      ? [interval(row, y, { ...drawing, ends: [Math.max(first, from), Math.min(last, to)] })]
      : []),
    ...(from < first ? [textAt({ ...arrow, x: 0, text: "\u25c4", align: "right" })] : []),
    ...(to > last ? [textAt({ ...arrow, x: drawing.width, text: "\u25ba" })] : []),
    ...(onAxis ? [point(row, y, drawing)] : []),
  ];
}

function interval(
  { style }: ForestRow,
  y: number,
  { x, theme, ends: [from, to] }: ForestDrawing & { readonly ends: readonly [number, number] },
): Layer {
  return {
    data: { values: [{ from, to }] },
    mark: { type: "rule", y, color: style.colour, strokeWidth: theme.line * 0.8 },
    encoding: { x: x("from"), x2: { field: "to" } },
  };
}

/** Open for a crude effect, filled for an adjusted one. */
function point({ effect, style }: ForestRow, y: number, { x, theme }: ForestDrawing): Layer {
  return {
    data: { values: [{ value: effect.estimate.value }] },
    mark: {
      type: "point",
      y,
      shape: style.shape,
      size: areaOf(theme.point * 1.1),
      fill: effect.adjusted_for.length > 0 ? style.colour : ink.paper,
      stroke: style.colour,
      strokeWidth: theme.line * 0.7,
      opacity: 1,
    },
    encoding: { x: x("value") },
  };
}
