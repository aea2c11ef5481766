import { normalCritical, tCritical } from "../../src/statistics/index.js";
import { type IntervalScale, limitsOfShare } from "../../src/statistics/survival/curve-intervals.js";
import type { ExactCurve } from "../../src/study/exact-results.js";
import type { EffectResult } from "../../src/study/index.js";
import type { Drawn } from "./draw-study.js";
import type { Finding } from "./tally.js";

type Printed = {
  readonly value: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
};

/** A printed estimate beside the truth it should hold. */
export const printed = (name: string, found: Printed, truth: number): Finding => ({
  kind: "interval",
  name,
  truth,
  value: found.value,
  lower: found.lower,
  upper: found.upper,
});

const none: Printed = { value: null, lower: null, upper: null };

export function curveOf(drawn: Drawn, family: ExactCurve["family"], label?: string): ExactCurve {
  const curves = drawn.curves().find((one) => one.family === family)!.curves;
  return label === undefined ? curves[0]! : curves.find((curve) => curve.label === label)!;
}

/** The effect of a measure, crude or adjusted, at a day where it has several. */
export function effectOf(
  drawn: Drawn,
  asked: { readonly measure: EffectResult["measure"]; readonly adjusted: boolean; readonly day?: number },
): EffectResult | undefined {
  return drawn
    .effects()
    .find(
      ({ measure, adjusted_for, at_day }) =>
        measure === asked.measure &&
        adjusted_for.length > 0 === asked.adjusted &&
        (asked.day === undefined || at_day === asked.day),
    );
}

export const effectFinding = (name: string, effect: EffectResult | undefined, truth: number): Finding =>
  printed(name, effect?.estimate ?? none, truth);

export const testFinding = (name: string, p: number | null | undefined): Finding => ({
  kind: "test",
  name,
  p: p ?? null,
});

/** How another interval of a share would have done: the scale, and Student's quantile with a small-sample factor for clusters. */
export interface Otherwise {
  readonly scale: IntervalScale;
  /** Number of clusters: variance times G / (G - 1), Student's t with G - 1 degrees of freedom. */
  readonly clusters?: number;
}

/** Limits of the share back at a day by another interval, from the printed share and standard error. */
export function sharesOtherwise(curve: ExactCurve, day: number, { scale, clusters }: Otherwise): Printed {
  const landmark = curve.landmarks.find((one) => one.day === day)!;
  const point = curve.points.findLast((one) => one.day <= day);
  if (landmark.returned.value === null || point === undefined || point.standard_error === null) return none;
  const share = point.not_yet;
  const factor = clusters === undefined ? 1 : Math.sqrt(clusters / (clusters - 1));
  const z = clusters === undefined ? normalCritical(0.95) : tCritical(0.95, clusters - 1);
  const errorOfLog = (factor * point.standard_error) / share;
  const limits = limitsOfShare({ share, errorOfLog }, { scale, z });
  return limits === null ? none : { value: 1 - share, lower: 1 - limits[1], upper: 1 - limits[0] };
}

/**
 * Score limits of the share back at a day for the size of sample that would have the printed standard error, S (1 - S) / SE^2. Where
 * nobody or everybody is back there is none, and the number still at risk, or the size of the group, is taken.
 *
 * @source Wilson 1927, J Am Stat Assoc 22:209; effective size: Cutler & Ederer 1958, J Chronic Dis 8:699
 */
export function shareByScore(curve: ExactCurve, day: number): Printed {
  const landmark = curve.landmarks.find((one) => one.day === day)!;
  const share = landmark.returned.value;
  if (share === null) return none;
  const error = curve.points.findLast((one) => one.day <= day)?.standard_error ?? null;
  const between = share > 0 && share < 1 && error !== null && error > 0;
  const size = between ? (share * (1 - share)) / error ** 2 : share === 0 ? landmark.at_risk : curve.n;
  if (!(size > 0)) return none;
  const z = normalCritical(0.95);
  const middle = share + (z * z) / (2 * size);
  const half = z * Math.sqrt((share * (1 - share)) / size + (z * z) / (4 * size * size));
  const scale = 1 + (z * z) / size;
  return {
    value: share,
    lower: Math.max(0, (middle - half) / scale),
    upper: Math.min(1, (middle + half) / scale),
  };
}

/**
 * Difference a - b with limits recovered from the limits of each side: lower = d - sqrt((a - lower a)^2 + (upper b - b)^2).
 *
 * @source Newcombe 1998, Stat Med 17:873; Zou & Donner 2008, Stat Med 27:1693
 */
export function recovered(a: Printed, b: Printed): Printed {
  if (a.value === null || b.value === null) return none;
  if (a.lower === null || a.upper === null || b.lower === null || b.upper === null) return none;
  const value = a.value - b.value;
  return {
    value,
    lower: value - Math.hypot(a.value - a.lower, b.upper - b.value),
    upper: value + Math.hypot(a.upper - a.value, b.value - b.lower),
  };
}
