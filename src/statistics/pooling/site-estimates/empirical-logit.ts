import { sizedShare } from "../../survival/small-sample.js";

/** A figure on the scale on which sites are pooled. */
export interface ScaledFigure {
  readonly estimate: number;
  readonly variance: number;
}

/**
 * Empirical logit of a share: with the effective size m of the sample, S (1 - S) / SE^2, and x = m S,
 *   log((x + 1/2) / (m - x + 1/2)), variance 1 / (x + 1/2) + 1 / (m - x + 1/2).
 *
 * Defined also where nobody or everybody is back, so that no site drops out of a pool because of what it found; its bias and the tie between
 * estimate and variance are smaller than those of the plain logit.
 *
 * @param point as `sizedShare` takes it
 * @returns null where there is nobody to tell by
 * @source Haldane 1956, Ann Hum Genet 20:309; Gart & Zweifel 1967, Biometrika 54:181; effective size: Cutler & Ederer 1958, J Chronic Dis 8:699
 */
export function empiricalLogit(point: Parameters<typeof sizedShare>[0]): ScaledFigure | null {
  const { share, size } = sizedShare(point);
  if (!(size > 0)) return null;
  const [back, not] = [share * size + 0.5, (1 - share) * size + 0.5];
  return { estimate: Math.log(back / not), variance: 1 / back + 1 / not };
}

/**
 * Variance of a share at which a curve has none of its own, since nobody or everybody is back: that of (x + 1/2) / (m + 1).
 *
 * @returns 0 for a share between 0 and 1, whose variance is its own
 * @source as for `empiricalLogit`
 */
export function varianceAtTheEdge({
  share,
  size,
}: {
  readonly share: number;
  readonly size: number;
}): number {
  if (share > 0 && share < 1) return 0;
  const smoothed = (share * size + 0.5) / (size + 1);
  return (smoothed * (1 - smoothed)) / (size + 1);
}
