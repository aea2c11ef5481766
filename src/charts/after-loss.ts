import type { Estimate } from "../study/results.js";
import {
  type AfterLossShown,
  afterLossText,
  extremes,
  factorTitle,
  figuresAlong,
  isDifference,
  valueTitle,
} from "../words/figures/after-loss.js";
import type { Figure, Json } from "./figure.js";
import { groupStyle } from "./group-style.js";
import { areaOf, type Layer, lineHeight, textAt } from "./marks.js";
import { page, stretchedHeight } from "./page.js";
import type { Panel } from "./panels.js";
import { lines } from "./rough-width.js";
import { ink, type Theme } from "./theme.js";
import { linearAxis } from "./value-axis.js";

/** A known figure at its place along the axis. */
interface Place {
  readonly place: number;
  readonly value: number;
  readonly lower: number | null;
  readonly upper: number | null;
}

interface Scene {
  readonly data: AfterLossShown;
  readonly theme: Theme;
  readonly margins: { readonly left: number; readonly right: number };
  readonly width: number;
  readonly along: readonly Place[];
  readonly ends: readonly Place[];
  readonly x: (field: string) => Json;
  readonly y: (field: string) => Json;
}

/** Factors that are labelled, on a scale of doublings; the extremes have their place beyond them. */
const labelled = [-3, -2, -1, 0, 1, 2, 3] as const;
const extreme = 4.1;
const edge = 5;

/**
 * A main figure by the factor that multiplies the rate of return of those lost: a line with its band, the estimate of the report marked at 1, and
 * at the ends the worst and the best case.
 */
export function afterLossFigure(data: AfterLossShown, theme: Theme): Figure {
  const text = afterLossText(data);
  const scene = sceneOf(data, theme);
  const layout = { margins: scene.margins, theme };
  const [above, below] = [titlePanel(scene), axisPanel(scene)];
  const height = stretchedHeight([above, below], text, layout);
  return page(text, [above, plotPanel(scene, height), below], layout);
}

function sceneOf(data: AfterLossShown, theme: Theme): Scene {
  const { small } = theme.font;
  const margins = { left: Math.round(4.4 * small), right: Math.round(1.5 * small) };
  const { worst, points, best } = figuresAlong(data);
  const along = points.flatMap(({ factor, figure }) => placed(Math.log2(factor), figure));
  const ends = [...placed(-extreme, worst), ...placed(extreme, best)];
  const values = [...along, ...ends].flatMap(({ value, lower, upper }) => [
    value,
    lower ?? value,
    upper ?? value,
  ]);
  const axis = isDifference(data.shown)
    ? linearAxis(values, 6)
    : { domain: [0, 1], ticks: [0, 0.25, 0.5, 0.75, 1] };
  return {
    data,
    theme,
    margins,
    width: theme.width - margins.left - margins.right,
    along,
    ends,
    x: (field) => ({
      field,
      type: "quantitative",
      scale: { domain: [-edge, edge], nice: false },
      axis: {
        title: null,
        values: labelled,
        grid: true,
        labelExpr:
          "datum.value < 0 ? '1/' + format(pow(2, -datum.value), 'd') : format(pow(2, datum.value), 'd')",
      },
    }),
    y: (field) => ({
      field,
      type: "quantitative",
      scale: { domain: axis.domain, nice: false },
      axis: {
        title: null,
        values: axis.ticks,
        grid: true,
        ticks: false,
        domain: false,
        labelExpr: isDifference(data.shown)
          ? "replace(format(100 * datum.value, '.0f'), '-', '\u2212')"
          : "format(100 * datum.value, '.0f') + ' %'",
      },
    }),
  };
}

const placed = (place: number, { value, lower, upper }: Estimate): Place[] =>
  value === null ? [] : [{ place, value, lower, upper }];

function titlePanel({ data, theme, width }: Scene): Panel {
  const { base, small } = theme.font;
  const x = -small * 3.4;
  const text = lines(valueTitle(data), { width: width - x, size: base });
  const height = Math.round((text.length + 0.6) * lineHeight(base));
  return { height, layers: [textAt({ x, y: lineHeight(base) / 2, text, size: base })] };
}

function plotPanel(scene: Scene, height: number): Panel {
  const { data, theme, along, ends, x, y } = scene;
  const { colour, shape } = groupStyle(theme, 0);
  const nothing = isDifference(data.shown) ? 0 : data.bounds.line;
  const known = along.flatMap(({ place, lower, upper }) =>
    lower === null || upper === null ? [] : [{ place, lower, upper }],
  );
  const band: Layer = {
    data: { values: known },
    mark: { type: "area", color: colour, opacity: 0.15 },
    encoding: { x: x("place"), y: y("lower"), y2: { field: "upper" } },
  };
  const line: Layer = {
    data: { values: along.map(({ place, value }) => ({ place, value })) },
    mark: { type: "line", color: colour, strokeWidth: theme.line },
    encoding: { x: x("place"), y: y("value") },
  };
  const level: Layer = {
    data: { values: [{ nothing, from: -edge, to: edge }] },
    mark: { type: "rule", color: ink.axis, strokeWidth: theme.thin * 1.4 },
    encoding: { x: x("from"), x2: { field: "to" }, y: y("nothing") },
  };
  const marked = [...ends, ...along.filter(({ place }) => place === 0)];
  return {
    height,
    layers: [level, band, line, ...marked.flatMap((one) => mark(one, { scene, shape, colour }))],
  };
}

/** A point with its interval. */
function mark(
  { place, value, lower, upper }: Place,
  {
    scene: { theme, x, y },
    shape,
    colour,
  }: { readonly scene: Scene; readonly shape: string; readonly colour: string },
): Layer[] {
  const interval: Layer[] =
    lower === null || upper === null
      ? []
      : [
          {
            data: { values: [{ place, lower, upper }] },
            mark: { type: "rule", color: colour, strokeWidth: theme.line },
            encoding: { x: x("place"), y: y("lower"), y2: { field: "upper" } },
          },
        ];
  const point: Layer = {
    data: { values: [{ place, value }] },
    mark: {
      type: "point",
      shape,
      size: areaOf(theme.point * 1.15),
      fill: ink.paper,
      stroke: colour,
      strokeWidth: theme.line * 0.8,
      opacity: 1,
    },
    encoding: { x: x("place"), y: y("value") },
  };
  return [...interval, point];
}

/** Room for the labels of the axis, what the ends stand for, then the axis' title. */
function axisPanel({ data, theme, width }: Scene): Panel {
  const { base, small } = theme.font;
  const [worst, best] = extremes;
  // on a narrow page the labels of the axis leave no room beside them
  const lower = theme.names === "above" ? lineHeight(small) : 0;
  const under = small * 1.4 + lower + lineHeight(small) + small * 0.5;
  const title = lines(factorTitle(data), { width, size: base });
  const look = { y: small * 0.9 + lower, size: small, colour: ink.muted } as const;
  return {
    height: Math.round(under + title.length * lineHeight(base)),
    layers: [
      textAt({ ...look, x: 0, text: worst }),
      textAt({ ...look, x: width, text: best, align: "right" }),
      textAt({ x: width / 2, y: under, text: title, size: base, align: "center" }),
    ],
  };
}
