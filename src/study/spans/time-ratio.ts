import { tCritical, tTwoSided } from "../../statistics/shared/distributions.js";
import type { IncidenceBetweenVisits } from "../../statistics/survival/between-visits/index.js";
import { estimateOf, missing } from "../estimates.js";
import type { Estimate } from "../results-parts.js";

/** By what the times to a return of one group are multiplied to be those of another, as if no other end came. */
export interface TimeRatio {
  readonly ratio: Estimate;
  readonly p: number | null;
}

/** Places of two groups, and how many rows or people that belong together the fit rests on. */
interface Asked {
  readonly compared: number;
  readonly reference: number;
  readonly units: number;
  readonly level: number;
}

/**
 * The ratio of times that an accelerated model has where the groups share a law and a spread: exp(b), b the difference of the groups'
 * coefficients, with the small-sample factor and Student's t of the model's other figures.
 *
 * @returns null where each group has a spread of its own: then no single ratio describes the times
 * @source Kalbfleisch & Prentice 2002, The Statistical Analysis of Failure Time Data, chapter 7
 */
export function timeRatioOf(
  fitted: IncidenceBetweenVisits,
  { compared, reference, units, level }: Asked,
): TimeRatio | null {
  const own = fitted.models.find(({ end }) => end === fitted.end);
  const fit = own?.fits[0];
  if (own?.form !== "together" || fit === undefined) return null;
  const covariance = fit.robustCovariance ?? fit.covariance;
  const placeOf = (group: number): number => fit.names.indexOf(`group ${group}`);
  // the first group has no coefficient: it is the one from which the others are counted
  const sides = [
    { sign: 1, place: placeOf(compared) },
    { sign: -1, place: placeOf(reference) },
  ].filter(({ place }) => place >= 0);
  const values = sides.map(({ sign, place }) => {
    const value = fit.coefficients[place]!;
    return value === null ? null : sign * value;
  });
  if (values.includes(null)) return { ratio: missing("monotone-likelihood"), p: null };
  const logarithm = values.reduce<number>((sum, value) => sum + value!, 0);
  const df = Math.max(1, units - fit.parameters);
  const variance = sides.reduce(
    (sum, one) =>
      sum +
      sides.reduce(
        (part, other) => part + one.sign * other.sign * covariance[one.place + 1]![other.place + 1]!,
        0,
      ),
    0,
  );
  const error = Math.sqrt((variance * units) / df);
  const half = tCritical(level, df) * error;
  return {
    ratio: estimateOf({
      value: Math.exp(logarithm),
      lower: Math.exp(logarithm - half),
      upper: Math.exp(logarithm + half),
      reason: null,
    }),
    p: tTwoSided(logarithm / error, df),
  };
}
