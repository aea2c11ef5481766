import type { CurvePoint, Estimate } from "./results.js";

/** The shares whose time is reported: a quarter, half and three quarters back. */
export const sharesAsked = [0.25, 0.5, 0.75];

type ReadPoint = Pick<CurvePoint, "day" | "returned" | "returned_lower" | "returned_upper">;

/** Rounding that a share may carry. */
const slack = 1e-12;

/**
 * The first day by which a share is back, read off a curve's points; its limits are the first days at which the upper
 * and the lower limit of the curve reach that share (Brookmeyer & Crowley 1982, Biometrics 38:29). No share back is
 * higher than that of a later day, so that an upper limit binds all days before it: where few were at risk early, as after
 * late starts of treatment, a wide limit of an early day is no limit of the time.
 */
export function firstDayBack(points: readonly ReadPoint[], share: number): Estimate {
  const first = (of: (point: ReadPoint) => number | null) =>
    points.find((point) => (of(point) ?? 0) >= share - slack)?.day ?? null;
  const value = first(({ returned }) => returned);
  const upper = first(({ returned_lower }) => returned_lower);
  const bound = points.findLast(({ returned_upper: limit }) => limit !== null && limit < share - slack);
  const after = bound === undefined ? points : points.filter(({ day }) => day > bound.day);
  const lower = after.find(({ returned_upper: limit }) => (limit ?? 0) >= share - slack)?.day ?? null;
  const complete = value !== null && lower !== null && upper !== null;
  return { value, lower, upper, reason: complete ? null : "not-reached" };
}
