import type { Estimate } from "../study/results.js";
import {
  type CurvesShown,
  curveText,
  gradeFacts,
  shareTitle,
  shareTitleWithWindows,
  timeTitle,
} from "../words/figures/return-curves.js";
import { windowOf } from "../words/usual-windows.js";
import { numbersAtRisk } from "./at-risk-table.js";
import { curvePanel } from "./curve-panel.js";
import { type CurveScene, curveScene, type NamedCurve } from "./curve-scene.js";
import type { Figure } from "./figure.js";
import { type FixedMark, lineHeight, rectAt, textAt } from "./marks.js";
import { type Margins, page, roomBeside } from "./page.js";
import type { Panel } from "./panels.js";
import { lines } from "./rough-width.js";
import { ink, type Theme } from "./theme.js";
import { type TimeAxis, timeAxis } from "./time-axis.js";
import { windowBand } from "./usual-windows.js";

/** Grades that are none: they are drawn in grey, so that they do not look like one. */
const withoutGrade: readonly string[] = ["unknown", "4_undivided"];

/** Least width of a panel in sizes of the small font. */
const leastWidth = 9.2;

interface Grid {
  readonly scene: CurveScene;
  readonly margins: Margins;
  readonly panelWidth: number;
  readonly gap: number;
  readonly rows: readonly (readonly NamedCurve[])[];
}

/** Grades beside one another, a small panel each, with the usual window of the grade behind its curve and the numbers at risk below. */
export function gradePanelsFigure(data: CurvesShown, theme: Theme): Figure {
  const text = curveText(data);
  const grid = gridOf(data, theme);
  const layout = { margins: grid.margins, theme };
  const around = grid.rows.map((row) => ({ head: headPanel(row, grid), foot: footPanel(row, grid) }));
  const [title, end] = [titlePanel(grid), endPanel(grid)];
  const fixed = [title, end, ...around.flatMap(({ head, foot }) => [head, foot])];
  const single = grid.rows.length === 1 ? 0.75 : 0.5;
  const height =
    theme.height === null
      ? Math.round(theme.plotHeight * single)
      : Math.max(theme.font.small * 4, roomBeside(fixed, text, layout) / grid.rows.length);
  const panels = around.flatMap(({ head, foot }, i) => [
    head,
    plotsPanel(grid.rows[i]!, grid, Math.floor(height)),
    foot,
  ]);
  return page(text, [title, ...panels, end], layout);
}

function gridOf(data: CurvesShown, theme: Theme): Grid {
  const whole = curveScene(data, theme);
  const { small } = theme.font;
  const margins = { left: Math.round(small * 5.2), right: Math.round(small * 1.8) };
  const gap = Math.round(small * 1.8);
  const room = theme.width - margins.left - margins.right;
  const most = Math.max(1, Math.floor((room + gap) / (leastWidth * small + gap)));
  // a page of given height has no room for a second row
  const fitting = theme.height === null ? most : whole.curves.length;
  const count = Math.ceil(whole.curves.length / Math.ceil(whole.curves.length / fitting));
  const panelWidth = Math.floor((room - (count - 1) * gap) / count);
  const axis = timeAxis(data.family.curves, { width: panelWidth, size: small });
  const curves = whole.curves.map((curve) => ({ ...curve, style: styleOf(curve) }));
  const rows = Array.from({ length: Math.ceil(curves.length / count) }, (_, row) =>
    curves.slice(row * count, (row + 1) * count),
  );
  return { scene: { ...whole, axis, margins }, margins, panelWidth, gap, rows };
}

/** Alone in its panel a grade needs no dashes; what is no grade has them. */
const styleOf = ({ grade, style }: NamedCurve): NamedCurve["style"] =>
  withoutGrade.includes(grade ?? "")
    ? { colour: ink.muted, dash: [2, 1.5], shape: "circle" }
    : { ...style, dash: [], shape: "circle" };

const startOf = (column: number, { panelWidth, gap }: Grid): number => column * (panelWidth + gap);

function titlePanel({ scene, margins }: Grid): Panel {
  const { plan, theme } = scene;
  const { base, small } = theme.font;
  const x = small - margins.left;
  const hasWindow = scene.curves.some(({ grade }) => windowOf(grade, plan) !== null);
  const title = hasWindow && theme.shown.windows ? shareTitleWithWindows(plan) : shareTitle(plan);
  const text = lines(title, { width: theme.width - 2 * small, size: base });
  return {
    height: text.length * lineHeight(base),
    layers: [textAt({ x, y: lineHeight(base) / 2, text, size: base })],
  };
}

/** Above each panel: the grade, how many, the median, and the usual window. */
function headPanel(row: readonly NamedCurve[], grid: Grid): Panel {
  const { scene, panelWidth, gap } = grid;
  const { plan, theme } = scene;
  const { base, small } = theme.font;
  const width = panelWidth + gap * 0.6;
  const heads = row.map((curve) => ({
    name: lines(curve.name, { width, size: base, weight: "bold" }),
    facts: gradeFacts(curve, plan, theme.shown).flatMap((fact) => lines(fact, { width, size: small })),
    colour: curve.style.colour,
  }));
  const names = Math.max(...heads.map(({ name }) => name.length)) * lineHeight(base);
  const facts = Math.max(...heads.map(({ facts: own }) => own.length)) * lineHeight(small);
  const top = small * 0.7;
  const layers = heads.flatMap(({ name, facts: own, colour }, column): FixedMark[] => {
    const x = startOf(column, grid);
    return [
      textAt({ x, y: top, text: name, size: base, weight: "bold", colour, baseline: "top" }),
      textAt({ x, y: top + names, text: own, size: small, baseline: "top" }),
    ];
  });
  return { height: Math.round(top + names + facts + small * 0.7), layers };
}

/** The plots of a row are one view whose days go on from plot to plot, each with its own beginning. */
function plotsPanel(row: readonly NamedCurve[], grid: Grid, height: number): Panel {
  const { scene, panelWidth, gap } = grid;
  const pitch = (scene.axis.endDay * (panelWidth + gap)) / panelWidth;
  const starts = row.map((_, column) => startOf(column, grid));
  const axis = { ...scene.axis, encoding: rowEncoding(grid, { pitch, count: row.length }) };
  const layers = row.flatMap((curve, column) => {
    const from = column * pitch;
    const own: CurveScene = { ...scene, axis, from, curves: [shifted(curve, from)] };
    const behind = windowBand(curve.grade ?? "", own, height);
    return curvePanel(own, { height, behind, labels: "elsewhere" }).layers;
  });
  const gaps = starts.map((x) =>
    rectAt({ x: x + panelWidth, x2: x + panelWidth + gap, y: 0, y2: height + 1 }, { color: ink.paper }),
  );
  const plots = starts.map((x) => ({ x, width: panelWidth }));
  return { height, layers: [...gaps, ...layers], plots };
}

/** Days of all plots on one axis, labelled in weeks from the beginning of each. */
function rowEncoding(
  { scene, margins, panelWidth }: Grid,
  { pitch, count }: { readonly pitch: number; readonly count: number },
): TimeAxis["encoding"] {
  const { endDay, ticks } = scene.axis;
  const width = scene.theme.width - margins.left - margins.right;
  const values = Array.from({ length: count }, (_, column) =>
    ticks.map((day) => day + column * pitch),
  ).flat();
  const day = `datum.value - ${pitch} * floor((datum.value + 0.001) / ${pitch})`;
  return (field) => ({
    field,
    type: "quantitative",
    scale: { domain: [0, (endDay * width) / panelWidth], nice: false },
    axis: {
      title: null,
      values,
      grid: true,
      domain: false,
      labelExpr: `format(round(1000 * (${day})) / 7000, '.3~r')`,
    },
  });
}

/** A curve whose days begin later on the axis. */
function shifted({ result, ...curve }: NamedCurve, by: number): NamedCurve {
  const later = <Point extends { readonly day: number }>(point: Point): Point => ({
    ...point,
    day: point.day + by,
  });
  const days = (estimate: Estimate): Estimate => ({
    ...estimate,
    value: estimate.value === null ? null : estimate.value + by,
  });
  return {
    ...curve,
    result: {
      ...result,
      points: result.points.map(later),
      last_day: result.last_day + by,
      quantiles: result.quantiles.map((quantile) => ({ ...quantile, days: days(quantile.days) })),
      alone: result.alone === null ? null : { ...result.alone, bounds: result.alone.bounds.map(later) },
    },
  };
}

/** Room for the labels of the axis; under them the numbers at risk. */
function footPanel(row: readonly NamedCurve[], grid: Grid): Panel {
  const { scene, margins } = grid;
  const { small } = scene.theme.font;
  const top = small * 1.9;
  if (!scene.theme.shown.atRisk) return { height: Math.round(top + small * 0.4), layers: [] };
  const y = top + lineHeight(small) / 2;
  const numbers = row.flatMap((curve, column) =>
    numbersAtRisk(curve.result, scene, { x: startOf(column, grid), y }),
  );
  const head = textAt({ x: small - margins.left, y, text: "at risk", size: small, colour: ink.muted });
  return { height: Math.round(top + lineHeight(small) + small * 0.3), layers: [head, ...numbers] };
}

function endPanel({ scene: { plan, theme }, margins }: Grid): Panel {
  const { base } = theme.font;
  const x = (theme.width - margins.left - margins.right) / 2;
  const text = timeTitle(plan);
  return {
    height: Math.round(lineHeight(base) * 1.2),
    layers: [textAt({ x, y: lineHeight(base) * 0.6, text, size: base, align: "center" })],
  };
}
