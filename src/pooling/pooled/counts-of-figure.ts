import type { SummaryFigure } from "../summary/site-summary.js";

/** Effective counts of a share: with a fraction where follow-up ends early or people have several injuries. */
export interface EffectiveCounts {
  readonly events: number;
  readonly size: number;
}

/** Rounding of a logit that was computed from the share itself. */
const rounding = 1e-9;

/**
 * The counts that a site's share with its error is worth, from what its summary holds: the size is S (1 - S) / SE^2, and at the edge, where
 * nobody or everybody is back, the number of people by whom it is known.
 *
 * Both stand in the estimate and its variance: the empirical logit has half an event added on both sides, the logit under a model of the
 * times none.
 *
 * @returns null without an estimate
 * @source effective size: Cutler & Ederer 1958, J Chronic Dis 8:699; half an event: Gart & Zweifel 1967, Biometrika 54:181
 */
export function countsOfFigure(
  figure: Pick<SummaryFigure, "value" | "estimate" | "variance"> | null,
  path: "days" | "spans" | null,
): EffectiveCounts | null {
  if (figure === null || figure.estimate === null || figure.variance === null) return null;
  const { value, estimate, variance } = figure;
  const isPlain =
    path === "spans" &&
    value !== null &&
    value > 0 &&
    value < 1 &&
    Math.abs(Math.log(value / (1 - value)) - estimate) <= rounding * (1 + Math.abs(estimate));
  const added = isPlain ? 0 : 0.5;
  const back = Math.max(0, (1 + Math.exp(estimate)) / variance - added);
  const not = Math.max(0, (1 + Math.exp(-estimate)) / variance - added);
  return { events: back, size: back + not };
}
