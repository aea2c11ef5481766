import type { SizedShare } from "../../statistics/survival/score-limits.js";

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
 * @param sized a share, and the size of the sample that would have its error (`sizedShare`)
 * @returns null where there is nobody to tell by
 * @source Haldane 1956, Ann Hum Genet 20:309; Gart & Zweifel 1967, Biometrika 54:181; effective size: Cutler & Ederer 1958, J Chronic Dis 8:699
 */
export function empiricalLogit({ share, size }: SizedShare): ScaledFigure | null {
  if (!(size > 0)) return null;
  const [back, not] = [share * size + 0.5, (1 - share) * size + 0.5];
  return { estimate: Math.log(back / not), variance: 1 / back + 1 / not };
}

/** Whether fewer than one of so many is expected on one side of a share: there a curve, or the tail of a model, is surer than its data. */
export const isAtTheEdge = ({ share, size }: SizedShare): boolean =>
  share * size < 1 || (1 - share) * size < 1;

/**
 * Variance of a share at the edge, where that of a curve is 0 and that of a model all but 0: that of (x + 1/2) / (m + 1).
 *
 * @returns 0 for a share away from the edge, whose variance is its own
 * @source as for `empiricalLogit`
 */
export function varianceAtTheEdge(sized: SizedShare): number {
  if (!isAtTheEdge(sized)) return 0;
  const { share, size } = sized;
  const smoothed = (share * size + 0.5) / (size + 1);
  return (smoothed * (1 - smoothed)) / (size + 1);
}
