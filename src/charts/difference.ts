import {
  type DifferenceShown,
  differenceText,
  differenceTitle,
  sidesOf,
} from "../words/figures/difference.js";
import { type CurveScene, columnStart, curveScene } from "./curve-scene.js";
import type { Figure } from "./figure.js";
import { type FixedMark, type Layer, lineHeight, textAt } from "./marks.js";
import { page, roomBeside, stretchedHeight } from "./page.js";
import { blank, type Panel } from "./panels.js";
import { belowCurves } from "./return-curve.js";
import { lines } from "./rough-width.js";
import { shareAxis } from "./step-curve.js";
import { ink, type Theme } from "./theme.js";
import { linearAxis, type ValueAxis } from "./value-axis.js";

/** Fills of the limits of each day and of the band, which read apart in grey print. */
const fills = { day: "#9db3d6", band: "#dfe6f1", line: "#1f4480" } as const;

/**
 * Difference of two shares back over time, with the limits of each day, the band for all days, the line of no difference and the numbers at risk
 * of both groups.
 */
export function differenceFigure(data: DifferenceShown, theme: Theme): Figure {
  const text = differenceText(data);
  const { last_day } = data.difference;
  const curves = data.family.curves.map((curve) => ({
    ...curve,
    last_day,
    number_at_risk: curve.number_at_risk.filter(({ day }) => day <= last_day),
  }));
  const scene = curveScene({ family: { ...data.family, curves }, plan: data.plan }, theme);
  const layout = { margins: scene.margins, theme };
  const above = [titlePanel(differenceTitle(data), scene), blank(Math.round(theme.font.base * 0.8))];
  const below = belowCurves(scene, (parts) => roomBeside([...above, ...parts], text, layout));
  const height = stretchedHeight([...above, ...below], text, layout);
  return page(text, [...above, differencePanel(data, { scene, height }), ...below], layout);
}

function titlePanel(title: string, { theme, margins }: CurveScene): Panel {
  const { base, small } = theme.font;
  const x = -small * 3.8;
  const text = lines(title, { width: theme.width - margins.left - x - small, size: base });
  return {
    height: text.length * lineHeight(base),
    layers: [textAt({ x, y: 0, text, size: base, baseline: "top" })],
  };
}

type Row = Readonly<Record<"day" | "difference" | "lower" | "upper" | "bandLower" | "bandUpper", number>>;

/** A row a point and one at the last day; where there is no band it is the limits of the day. */
function rowsOf({ difference: { points, last_day } }: DifferenceShown): readonly Row[] {
  const rows = points.map(({ day, difference, lower, upper, band_lower, band_upper }) => ({
    day,
    difference,
    lower,
    upper,
    bandLower: band_lower ?? lower,
    bandUpper: band_upper ?? upper,
  }));
  const last = rows.at(-1);
  return last === undefined || last.day >= last_day ? rows : [...rows, { ...last, day: last_day }];
}

const axisOf = (rows: readonly Row[]): ValueAxis => {
  const furthest = Math.max(0.1, ...rows.flatMap(({ bandLower, bandUpper }) => [-bandLower, bandUpper]));
  return linearAxis([-furthest, furthest], 6);
};

function differencePanel(
  data: DifferenceShown,
  { scene, height }: { readonly scene: CurveScene; readonly height: number },
): Panel {
  const { axis, theme } = scene;
  const rows = rowsOf(data);
  const value = points(axisOf(rows));
  const day = axis.encoding("day", "labelled");
  const between = (low: keyof Row, high: keyof Row, color: string): Layer => ({
    data: { values: rows },
    mark: { type: "area", interpolate: "step-after", color, opacity: 1 },
    encoding: { x: day, y: value(low), y2: { field: high } },
  });
  const none: Layer = {
    data: { values: [{ day: 0, end: axis.endDay, none: 0 }] },
    mark: {
      type: "rule",
      color: ink.text,
      strokeWidth: theme.thin * 1.3,
      strokeDash: [4 * theme.thin, 3 * theme.thin],
    },
    encoding: { x: day, x2: { field: "end" }, y: value("none") },
  };
  const line: Layer = {
    data: { values: rows },
    mark: { type: "line", interpolate: "step-after", color: fills.line, strokeWidth: theme.line },
    encoding: { x: day, y: value("difference") },
  };
  return {
    height,
    layers: [
      between("bandLower", "bandUpper", fills.band),
      between("lower", "upper", fills.day),
      none,
      line,
      ...sideLabels(sidesOf(data), { scene, height }),
    ],
  };
}

const points = (axis: ValueAxis) => shareAxis(axis, "replace(format(100 * datum.value, '+.0f'), '+0', '0')");

/** Right of the plot: which side of the line means what. */
function sideLabels(
  [above, below]: readonly [string, string],
  { scene: { axis, theme }, height }: { readonly scene: CurveScene; readonly height: number },
): FixedMark[] {
  const { small } = theme.font;
  const broken = (text: string, width = small * 12) => lines(text, { width, size: small });
  const tall = (broken(above).length + broken(below).length) * lineHeight(small);
  if (theme.names === "above" || tall > height * 0.8) {
    const look = { x: axis.width, size: small, colour: ink.muted, align: "right" } as const;
    const inside = lineHeight(small) * 0.6;
    const [over, under] = [above, below].map((text) => broken(text, axis.width * 0.95));
    const last = height - inside - (under!.length - 1) * lineHeight(small);
    return [textAt({ ...look, y: inside, text: over! }), textAt({ ...look, y: last, text: under! })];
  }
  const x = axis.width + columnStart(theme);
  const lower = broken(below);
  return [
    textAt({ x, y: height * 0.1, text: broken(above), size: small, colour: ink.muted }),
    textAt({
      x,
      y: height * 0.9 - (lower.length - 1) * lineHeight(small),
      text: lower,
      size: small,
      colour: ink.muted,
    }),
  ];
}
