import type { Json } from "./figure.js";
import type { ForestRow } from "./forest-rows.js";
import { areaOf, type FixedMark, type Layer, textAt } from "./marks.js";
import type { Drawn } from "./panels.js";
import { ink, type Theme } from "./theme.js";
import type { ValueAxis } from "./value-axis.js";

export interface ForestDrawing {
  readonly x: (field: string) => Json;
  readonly axis: ValueAxis;
  readonly theme: Theme;
  readonly width: number;
  /** Whether the axis runs from right to left. */
  readonly isTurned: boolean;
}

/** A row and the middle of its first line. */
export interface PlacedRow {
  readonly row: ForestRow;
  readonly y: number;
}

/** The intervals and the estimates on them; what lies beyond the axis, or has no limit, ends in an arrow. */
export function rowMarks(rows: readonly PlacedRow[], drawing: ForestDrawing): Drawn[] {
  const known = rows.filter(({ row }) => row.effect.estimate.value !== null);
  return [
    ...known.flatMap((placed) => arrows(placed, drawing)),
    ...intervals(known, drawing),
    ...points(known, drawing),
  ];
}

/** The ends of an interval, without end where a limit is missing; null where there is no interval. */
function endsOf({ effect: { estimate } }: ForestRow): readonly [number, number] | null {
  const { lower, upper } = estimate;
  return lower === null && upper === null ? null : [lower ?? -Infinity, upper ?? Infinity];
}

function arrows({ row, y }: PlacedRow, { axis, theme, width, isTurned }: ForestDrawing): FixedMark[] {
  const [first, last] = axis.domain;
  const value = row.effect.estimate.value!;
  const [from, to] = endsOf(row) ?? [value, value];
  const arrow = { y, size: theme.font.small, colour: row.style.colour } as const;
  return [
    ...((isTurned ? to > last : from < first)
      ? [textAt({ ...arrow, x: 0, text: "\u25c4", align: "right" })]
      : []),
    ...((isTurned ? from < first : to > last) ? [textAt({ ...arrow, x: width, text: "\u25ba" })] : []),
  ];
}

function intervals(rows: readonly PlacedRow[], { x, axis, theme }: ForestDrawing): Layer[] {
  const [first, last] = axis.domain;
  const values = rows.flatMap(({ row, y }) => {
    const ends = endsOf(row);
    return ends === null
      ? []
      : [{ y, colour: row.style.colour, from: Math.max(first, ends[0]), to: Math.min(last, ends[1]) }];
  });
  if (values.length === 0) return [];
  return [
    {
      data: { values },
      mark: { type: "rule", ...fromData, color: { expr: "datum.colour" }, strokeWidth: theme.line * 0.8 },
      encoding: { x: x("from"), x2: { field: "to" } },
    },
  ];
}

/** Open for a crude effect, filled for an adjusted one. */
function points(rows: readonly PlacedRow[], { x, axis, theme }: ForestDrawing): Layer[] {
  const [first, last] = axis.domain;
  const values = rows.flatMap(({ row: { effect, style }, y }) => {
    const value = effect.estimate.value!;
    const fill = effect.adjusted_for.length > 0 ? style.colour : ink.paper;
    return value >= first && value <= last
      ? [{ y, value, fill, stroke: style.colour, shape: style.shape }]
      : [];
  });
  if (values.length === 0) return [];
  return [
    {
      data: { values },
      mark: {
        type: "point",
        ...fromData,
        shape: { expr: "datum.shape" },
        size: areaOf(theme.point * 1.1),
        fill: { expr: "datum.fill" },
        stroke: { expr: "datum.stroke" },
        strokeWidth: theme.line * 0.7,
        opacity: 1,
      },
      encoding: { x: x("value") },
    },
  ];
}

/** The place of a row's middle, in pixels. */
const fromData: Layer = { y: { expr: "datum.y" } };
