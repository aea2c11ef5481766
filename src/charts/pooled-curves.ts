import { pooledCurveName, pooledCurvesText, siteCurveName } from "../words/figures/pooled-curves.js";
import type { PooledCurveShown, SiteCurve } from "../words/pooling/pooled-curve-shown.js";
import type { Figure, Json } from "./figure.js";
import { areaOf, type FixedMark, type Layer, lineHeight, pointAt, rectAt, ruleAt, textAt } from "./marks.js";
import { type Margins, page, stretchedHeight } from "./page.js";
import { blank, type Panel } from "./panels.js";
import { lines } from "./rough-width.js";
import { type StepCurve, shareAxis, stepBand, stepLine } from "./step-curve.js";
import { ink, type Theme } from "./theme.js";
import { type TimeAxis, timeAxis } from "./time-axis.js";

const colours = { pooled: "#1f4480", further: "#dfe6f1" } as const;

interface Scene {
  readonly shown: PooledCurveShown;
  readonly theme: Theme;
  readonly margins: Margins;
  readonly axis: TimeAxis;
}

/**
 * The share by time at every site, pale, and pooled before them: a line with its band where the pooled curve is known day by day, discs with
 * intervals and the place of a further site where it is known at agreed days only.
 */
export function pooledCurvesFigure(shown: PooledCurveShown, theme: Theme): Figure {
  const text = pooledCurvesText(shown);
  const { base, small } = theme.font;
  const margins = { left: Math.round(small * 6), right: Math.round(small * 7) };
  const width = theme.width - margins.left - margins.right;
  const days = shown.pooled.coarse ? shown.pooled.points.map(({ day }) => ({ day })) : [];
  const curves = [shown.pooled, ...shown.sites].map(({ lastDay }) => ({
    last_day: lastDay,
    number_at_risk: days,
  }));
  const scene = { shown, theme, margins, axis: timeAxis(curves, { width, size: small }) };
  const above = [titlePanel(scene), blank(Math.round(base * 0.8))];
  const below = [timePanel(scene)];
  const height = stretchedHeight([...above, ...below], text, { margins, theme });
  return page(text, [...above, curvesPanel(scene, height), ...below], { margins, theme });
}

function titlePanel({ shown, theme, margins }: Scene): Panel {
  const { base, small } = theme.font;
  const x = -small * 3.8;
  const text = lines(shown.shareTitle, { width: theme.width - margins.left - x - small, size: base });
  return {
    height: text.length * lineHeight(base),
    layers: [textAt({ x, y: 0, text, size: base, baseline: "top" })],
  };
}

function timePanel({ shown, theme, axis }: Scene): Panel {
  const { base, small } = theme.font;
  const y = small * 1.9 + lineHeight(base) / 2;
  return {
    height: Math.round(y + lineHeight(base)),
    layers: [textAt({ x: axis.width / 2, y, text: shown.timeTitle, size: base, align: "center" })],
  };
}

const share = shareAxis({ domain: [0, 1], ticks: [0, 0.25, 0.5, 0.75, 1] });

/** With the start, at which nobody is back. */
function curveOf(
  {
    points,
    lastDay,
    coarse,
  }: Pick<SiteCurve, "lastDay" | "coarse"> & {
    readonly points: readonly { day: number; share: number; lower?: number | null; upper?: number | null }[];
  },
  colour: string,
): StepCurve {
  const known = points.map((point) => ({
    day: point.day,
    share: point.share,
    lower: point.lower ?? null,
    upper: point.upper ?? null,
  }));
  const start = known[0]?.day === 0 ? [] : [{ day: 0, share: 0, lower: null, upper: null }];
  return {
    points: [...start, ...known],
    lastDay: coarse ? (points.at(-1)?.day ?? 0) : lastDay,
    style: { colour, dash: [], shape: "circle" },
    interpolate: coarse ? "linear" : "step-after",
  };
}

function curvesPanel(scene: Scene, height: number): Panel {
  const { shown, theme, axis } = scene;
  const { pooled } = shown;
  const axes = { day: axis.encoding("day", "labelled"), share };
  const own = curveOf(pooled, colours.pooled);
  const band = pooled.coarse ? [] : [stepBand(own, { axes, opacity: 0.2 })];
  return {
    height,
    layers: [
      frame(axes.day, scene),
      ...furtherSites(scene, height),
      ...shown.sites.map((site) => stepLine(curveOf(site, ink.single), { axes, width: theme.line * 0.55 })),
      ...band,
      stepLine(own, { axes, width: theme.line * (pooled.coarse ? 0.55 : 1.2) }),
      ...(pooled.coarse ? agreedDays(scene, height) : []),
      ...labels(scene, height),
    ],
  };
}

/** Invisible; it draws the axes where there is no curve. */
const frame = (day: Json, { axis }: Scene): Layer => ({
  data: { values: [{ day: 0, end: axis.endDay, share: 0 }] },
  mark: { type: "rule", opacity: 0 },
  encoding: { x: day, x2: { field: "end" }, y: share("share") },
});

const onHeight = (value: number, height: number): number => (1 - value) * height;

function furtherSites({ shown, theme, axis }: Scene, height: number): FixedMark[] {
  const half = theme.point * 0.85;
  return shown.pooled.points.flatMap(({ day, prediction }) => {
    if (prediction === null) return [];
    const x = axis.x(day);
    const corners = { y: onHeight(prediction.upper, height), y2: onHeight(prediction.lower, height) };
    return [rectAt({ x: x - half, x2: x + half, ...corners }, { color: colours.further })];
  });
}

function agreedDays({ shown, theme, axis }: Scene, height: number): FixedMark[] {
  return shown.pooled.points.flatMap(({ day, share: value, lower, upper }) => {
    const x = axis.x(day);
    const interval =
      lower === null || upper === null
        ? []
        : [
            ruleAt(
              { x, x2: x, y: onHeight(upper, height), y2: onHeight(lower, height) },
              { color: colours.pooled, strokeWidth: theme.line * 1.3, opacity: 1 },
            ),
          ];
    const disc = pointAt(
      { x, y: onHeight(value, height) },
      {
        shape: "circle",
        size: areaOf(theme.point * 1.25),
        fill: colours.pooled,
        stroke: ink.paper,
        strokeWidth: theme.thin * 1.5,
      },
    );
    return [...interval, disc];
  });
}

/** The pooled curve is named at its end; the sites once, apart from it. */
function labels({ shown, theme, axis }: Scene, height: number): FixedMark[] {
  const { small, base } = theme.font;
  const x = axis.width + small * 0.8;
  const last = shown.pooled.points.at(-1);
  if (last === undefined) return [];
  const y = Math.min(height - base, Math.max(base, onHeight(last.share, height)));
  const beside = y > height / 2 ? y - lineHeight(base) * 1.5 : y + lineHeight(base) * 1.5;
  return [
    textAt({ x, y, text: pooledCurveName, size: base, weight: "bold", colour: colours.pooled }),
    textAt({ x, y: beside, text: siteCurveName, size: base, colour: ink.axis }),
  ];
}
