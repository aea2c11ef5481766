import type { LimitsShown, PooledShown, SiteAnswer } from "../words/pooling/pooled-shown.js";
import { areaOf, type FixedMark, pointAt, rectAt, ruleAt, textAt } from "./marks.js";
import type { Columns } from "./pooled-sites-rows.js";
import type { SiteAxis } from "./site-axis.js";
import { ink, type Theme } from "./theme.js";

/** Fills of the pooled answer and of a further site, and their line: those of limits over time, which read apart in grey print. */
const fills = { pooled: "#9db3d6", further: "#dfe6f1", line: "#1f4480", site: "#3d3d3d" } as const;

/** What all marks of the figure share. */
export interface Scene {
  readonly shown: PooledShown;
  readonly theme: Theme;
  readonly columns: Columns;
  readonly axis: SiteAxis;
}

const onAxis = (x: number, { width }: SiteAxis): number => Math.min(width, Math.max(0, x));

/** From the top down to its own row: the further site's pale, the pooled answer's dark. */
export function bands(
  { shown: { pooled }, axis }: Scene,
  {
    height,
    furtherTop,
  }: { readonly height: number; readonly pooledTop: number; readonly furtherTop: number },
): FixedMark[] {
  const band = ({ lower, upper }: LimitsShown, y2: number, color: string): FixedMark[] => {
    if (lower === null || upper === null) return [];
    return [rectAt({ x: onAxis(axis.x(lower), axis), x2: onAxis(axis.x(upper), axis), y: 0, y2 }, { color })];
  };
  return [
    ...band(pooled.prediction, height, fills.further),
    ...band(pooled.interval, furtherTop, fills.pooled),
  ];
}

export const gridLines = ({ axis, theme }: Scene, height: number): FixedMark[] =>
  axis.ticks.map((tick) =>
    ruleAt(
      { x: axis.x(tick), x2: axis.x(tick), y: 0, y2: height },
      { color: ink.grid, strokeWidth: theme.thin, opacity: 0.7 },
    ),
  );

export function nullLine({ shown: { compared }, axis, theme }: Scene, height: number): FixedMark[] {
  if (compared === null) return [];
  const x = axis.x(compared.nullValue);
  return [
    ruleAt({ x, x2: x, y: 0, y2: height }, { color: ink.text, strokeWidth: theme.thin * 1.3, opacity: 1 }),
  ];
}

export function pooledLine({ shown: { pooled }, axis, theme }: Scene, y2: number): FixedMark[] {
  if (pooled.estimate === null) return [];
  const x = axis.x(pooled.estimate);
  return [ruleAt({ x, x2: x, y: 0, y2 }, { color: fills.line, strokeWidth: theme.line * 0.8, opacity: 1 })];
}

export const dividing = ({ columns, theme }: Scene, y: number): FixedMark =>
  ruleAt(
    { x: columns.name, x2: theme.width - columns.margins.left - theme.font.small, y, y2: y },
    { color: ink.axis, strokeWidth: theme.thin, opacity: 1 },
  );

export function siteMarks(
  { estimate, lower, upper, weight }: SiteAnswer,
  { y, most, scene }: { readonly y: number; readonly most: number; readonly scene: Scene },
): FixedMark[] {
  if (estimate === null) return [];
  const { axis, theme } = scene;
  const hasInterval = lower !== null && upper !== null;
  return [
    ...(hasInterval ? interval({ lower, upper }, { y, scene }) : []),
    pointAt(
      { x: onAxis(axis.x(estimate), axis), y },
      {
        shape: "circle",
        size: areaOf(theme.point * Math.max(0.6, 1.7 * Math.sqrt(weight / most))),
        fill: hasInterval ? fills.site : ink.paper,
        stroke: hasInterval ? ink.paper : fills.site,
        strokeWidth: theme.thin,
      },
    ),
  ];
}

function interval(
  { lower, upper }: { readonly lower: number; readonly upper: number },
  { y, scene: { axis, theme } }: { readonly y: number; readonly scene: Scene },
): FixedMark[] {
  const [from, to] = [axis.x(lower), axis.x(upper)];
  const arrow = { y, size: theme.font.small * 0.8, colour: fills.site } as const;
  return [
    ruleAt(
      { x: onAxis(from, axis), x2: onAxis(to, axis), y, y2: y },
      { color: fills.site, strokeWidth: theme.line * 0.65, opacity: 1 },
    ),
    ...(from < -0.5 ? [textAt({ ...arrow, x: 0, text: "\u25c4", align: "right" })] : []),
    ...(to > axis.width + 0.5 ? [textAt({ ...arrow, x: axis.width, text: "\u25ba" })] : []),
  ];
}

/** At its own row: a disc as the sites have, in the colour of the line. */
export function pooledPoint({ shown: { pooled }, axis, theme }: Scene, y: number): FixedMark[] {
  if (pooled.estimate === null) return [];
  return [
    pointAt(
      { x: axis.x(pooled.estimate), y },
      {
        shape: "circle",
        size: areaOf(theme.point * 1.2),
        fill: fills.line,
        stroke: ink.paper,
        strokeWidth: theme.thin * 1.5,
      },
    ),
  ];
}
