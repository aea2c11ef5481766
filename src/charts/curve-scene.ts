import type { Plan } from "../study/plan.js";
import type { CurveResult } from "../study/results.js";
import { fieldOf } from "../words/curve-families.js";
import { type CurvesShown, curveNames, medianTitle, medianWords } from "../words/figures/return-curves.js";
import type { Json } from "./figure.js";
import { type GroupStyle, groupStyle } from "./group-style.js";
import type { Margins } from "./page.js";
import { lines, roughWidth } from "./rough-width.js";
import { wholeShare } from "./step-curve.js";
import type { Theme } from "./theme.js";
import { type TimeAxis, timeAxis } from "./time-axis.js";

/** One curve with its name and look. */
export interface NamedCurve {
  readonly result: CurveResult;
  readonly name: string;
  /** The grade that the curve stands for; null where it stands for something else. */
  readonly grade: string | null;
  readonly style: GroupStyle;
}

/** What all panels of a curve figure share: the curves, the time axis, the margins. */
export interface CurveScene {
  readonly curves: readonly NamedCurve[];
  readonly plan: Plan;
  readonly entry: CurvesShown["family"]["entry"];
  /** Whether the curves are those of a model, and smooth. */
  readonly isModel: boolean;
  readonly axis: TimeAxis;
  /** Day of the axis on which the plot begins: not 0 where plots stand beside one another. */
  readonly from: number;
  /** A field of shares on the axis of shares. */
  readonly share: (field: string) => Json;
  readonly margins: Margins;
  readonly theme: Theme;
}

export function curveScene({ family, plan }: CurvesShown, theme: Theme): CurveScene {
  const names = curveNames(family, plan);
  const isByGrade = fieldOf(family.family, plan.compare.by) === "grade";
  const curves = family.curves.map((result, i) => ({
    result,
    name: names.of(result),
    grade: isByGrade ? result.label : null,
    style: groupStyle(theme, i),
  }));
  const margins = marginsFor(curves, theme);
  const width = theme.width - margins.left - margins.right;
  return {
    curves,
    plan,
    entry: family.entry,
    isModel: family.model !== null,
    axis: timeAxis(family.curves, { width, size: theme.font.small }),
    from: 0,
    share: wholeShare,
    margins,
    theme,
  };
}

/** Lengths of the parts of a row's head, in pixels: sample of the line, then the name. */
export const rowHead = ({ font }: Theme) => ({
  edge: font.small,
  sample: font.small * 2.6,
  gap: font.small * 0.5,
});

/** Where names stand above the numbers, the median takes the other half of their row. */
export const nameLines = (name: string, theme: Theme): readonly string[] => {
  const { small } = theme.font;
  const { edge, sample, gap } = rowHead(theme);
  const above = theme.width - 2 * edge - sample - gap - 13 * small;
  return lines(name, { width: theme.names === "above" ? above : 11 * small, size: small });
};

/** A direct label is bold, at most two or three lines. */
export const labelLines = (name: string, { font }: Theme): readonly string[] =>
  lines(name, { width: font.base * 10.5, size: font.base, weight: "bold" });

/** The median with its interval, or the reason why there is none, in lines. */
export const medianLines = ({ result }: NamedCurve, { font }: Theme): readonly string[] =>
  lines(medianWords(result), { width: font.small * 12, size: font.small });

function marginsFor(curves: readonly NamedCurve[], theme: Theme): Margins {
  const { base, small } = theme.font;
  const widest = (texts: readonly string[], size: number, weight: "normal" | "bold") =>
    Math.max(0, ...texts.map((text) => roughWidth(text, size, weight)));
  const head = rowHead(theme);
  if (theme.names === "above") return { left: Math.round(small * 5.2), right: Math.round(small * 1.8) };
  const names = widest(
    curves.flatMap(({ name }) => nameLines(name, theme)),
    small,
    "normal",
  );
  const labels = widest(
    curves.flatMap(({ name }) => labelLines(name, theme)),
    base,
    "bold",
  );
  const halves = widest(
    theme.shown.atRisk ? [medianTitle, ...curves.flatMap((curve) => medianLines(curve, theme))] : [],
    small,
    "normal",
  );
  return {
    left: Math.round(Math.max(small * 6, head.edge + head.sample + head.gap + names + small * 1.6)),
    right: Math.round(columnStart(theme) + Math.max(labels, halves) + head.edge),
  };
}

/** Where the texts right of the plot begin, counted from its end. */
export const columnStart = ({ font }: Theme): number => Math.round(font.small * 1.7);
