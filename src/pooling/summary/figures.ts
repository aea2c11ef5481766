import type { clusterIndex } from "../../statistics/shared/clusters.js";
import type { ReasonCode } from "../../study/results-parts.js";
import { productsWithin, type ScaledFigure, withVariances } from "../site-estimates/index.js";

/** The scale on which a figure is pooled: the logit of a share, a difference of shares, or days. */
export type PoolingScale = "logit" | "share" | "days";

/** What a figure is and where it is read. */
export interface FigurePlace {
  readonly measure: "share_back" | "mean_days" | "other_end";
  /** The landmark as the study file writes it; null for the mean up to the horizon. */
  readonly week: number | null;
  /** The landmark or the horizon. */
  readonly day: number;
}

/** A figure as it is shown and as it is pooled, or why there is none. */
export interface SiteFigure extends FigurePlace {
  readonly scale: PoolingScale;
  /** As shown: a share, a difference of shares, days. */
  readonly value: number | null;
  readonly standardError: number | null;
  /** On the scale of pooling. */
  readonly estimate: number | null;
  readonly variance: number | null;
  readonly reason: ReasonCode | null;
}

/** Figures of one group or of one comparison with their variance matrix on the scale of pooling; null where a figure is missing. */
export interface JointFigureSet {
  readonly figures: readonly SiteFigure[];
  readonly variance: readonly (readonly (number | null)[])[];
}

/** A figure with what every row moves it by. */
export interface MovedFigure extends FigurePlace {
  readonly scale: PoolingScale;
  readonly value: number | null;
  readonly reason: ReasonCode | null;
  readonly influences: Float64Array;
  /** On the scale of pooling, from the value and its variance by the influences. */
  readonly scaled: (variance: number) => ScaledFigure | null;
}

/** Figures from their influences, products summed within clusters. */
export function jointFigures(
  moved: readonly MovedFigure[],
  cluster: ReturnType<typeof clusterIndex>,
): JointFigureSet {
  const products = productsWithin(
    cluster,
    moved.map(({ influences }) => influences),
  );
  const figures = moved.map(({ influences: _, scaled, ...place }, i): SiteFigure => {
    const found = place.value === null ? null : scaled(products[i]![i]!);
    if (place.value === null) return missingFigure(place, place.reason ?? "no-rows");
    const standardError = Math.sqrt(products[i]![i]!);
    if (found === null || !(found.variance > 0))
      return { ...missingFigure(place, place.reason ?? "no-variance"), value: place.value, standardError };
    return { ...place, standardError, ...found, reason: null };
  });
  return { figures, variance: matrixOf(figures, products) };
}

/** A figure that is not there, and why. */
export const missingFigure = (
  { measure, week, day, scale }: FigurePlace & Pick<SiteFigure, "scale">,
  reason: ReasonCode,
): SiteFigure => ({
  measure,
  week,
  day,
  scale,
  value: null,
  standardError: null,
  estimate: null,
  variance: null,
  reason,
});

/** The matrix on the scale of pooling: correlations as computed, with the variances of the figures. */
export function matrixOf(
  figures: readonly Pick<SiteFigure, "variance">[],
  products: readonly (readonly number[])[],
): (number | null)[][] {
  const variances = figures.map(({ variance }) => variance ?? 0);
  const isThere = figures.map(({ variance }) => variance !== null);
  return withVariances(products, variances).map((row, i) =>
    row.map((value, j) => (isThere[i] && isThere[j] ? value : null)),
  );
}

/** A variance with the factor units / (units - curves) of small samples; null where there are no more units than curves. */
export const forSmallSamples = (
  variance: number,
  { units, curves }: { readonly units: number; readonly curves: number },
): number | null => (units > curves ? (variance * units) / (units - curves) : null);
