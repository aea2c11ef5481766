import { counted } from "../../schema/counted.js";
import { figureCaution } from "../cautions.js";
import { estimateWords, intervalName } from "../estimates.js";
import { plainNumber } from "../numbers.js";
import { fewSitesWords } from "../pooling/few-sites.js";
import type { PooledCurveShown } from "../pooling/pooled-curve-shown.js";
import { limits } from "../units.js";
import type { FigureText } from "./figure-text.js";

export const pooledCurveName = "pooled";
export const siteCurveName = "sites";

type Point = PooledCurveShown["pooled"]["points"][number];

function pointWords({ day, share, lower, upper, prediction }: Point): string {
  const value = estimateWords({ value: share, lower, upper, reason: null }, "share");
  const further = prediction === null ? "" : `, a further site ${limits(prediction, "share")}`;
  return `week ${plainNumber(day / 7, 1)}: ${value}${further}`;
}

/** Of a curve with many steps about every fourth part is told. */
const told = 6;
const toldOf = (points: readonly Point[]): readonly Point[] =>
  points.filter((_, i) => points.length <= told || i % Math.ceil(points.length / told) === 0);

function pooledNote({ coarse, asOneGroup }: PooledCurveShown["pooled"]): string {
  const what = asOneGroup
    ? `all injuries of these sites as one group${coarse ? " at the ends of the bins that they share" : ""}, with an interval that takes every injury on its own`
    : `the pooled answer${coarse ? " at the agreed days" : ""}, with its interval`;
  return coarse ? `${what}; the line between them only guides the eye.` : `${what}.`;
}

/** Title, subtitle, text alternative and notes of the figure of sites' curves and the pooled one. */
export function pooledCurvesText(shown: PooledCurveShown): FigureText {
  const { pooled, level } = shown;
  const injuries =
    typeof pooled.injuries === "number"
      ? counted(pooled.injuries, "injury", "injuries")
      : "number of injuries left out";
  return {
    id: `site-curves-${shown.id}`,
    title: shown.title,
    subtitle: `${counted(pooled.sites, "site", "sites")}, ${injuries}; ${pooled.method}; ${intervalName(level)}s (CI)`,
    description: [
      `Curves of the ${shown.shareTitle} by ${shown.timeTitle}: ${counted(shown.sites.length, "site", "sites")} pale, and the pooled one with ${intervalName(level)}s.`,
      `Pooled, per cent: ${toldOf(pooled.points).map(pointWords).join("; ")}.`,
    ].join(" "),
    notes: [
      "Pale lines: single sites, each to its last follow-up.",
      `${pooled.coarse ? "Discs" : "Dark line"}: ${pooledNote(pooled)}`,
      ...(pooled.points.some(({ prediction }) => prediction !== null)
        ? ["Wide pale bars: where the true share of a further site of the same kind is expected."]
        : []),
      ...(pooled.asOneGroup ? [] : fewSitesWords(pooled.sites)),
      figureCaution,
    ],
    synthetic: shown.synthetic,
    individual: false,
  };
}
