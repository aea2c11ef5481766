import type { EffectResult, Estimate } from "../../../src/study/results.js";

/** SYNTHETIC effects, invented for the tests of the drawings; their numbers stand for nothing. */
export function inventedEffect(
  measure: EffectResult["measure"],
  [value, lower, upper]: readonly [number | null, number | null, number | null],
  parts: Partial<EffectResult> = {},
): EffectResult {
  const unit = (
    {
      landmark_difference: "share",
      restricted_mean_difference: "d",
      hazard_ratio: "ratio",
      distance_change_difference: "mm",
    } as const
  )[measure];
  const estimate: Estimate = { value, lower, upper, reason: value === null ? "too-few-rows" : null };
  return {
    id: `${measure}-${parts.compared ?? "ring"}-${parts.at_day ?? 0}-${(parts.adjusted_for ?? []).join("-")}`,
    measure,
    compared: "ring",
    reference: "tape",
    adjusted_for: [],
    at_day: null,
    main: true,
    unit,
    estimate,
    level: 0.95,
    standard_error: null,
    p: null,
    n: { compared: 64, reference: 58 },
    events: { compared: 55, reference: 49 },
    method: "curves",
    clustered: false,
    strata_used: [],
    left_out: [],
    ...parts,
  };
}

const adjusted = { adjusted_for: ["grade"] };

export const threeLandmarks: readonly EffectResult[] = [
  inventedEffect("landmark_difference", [0.08, -0.06, 0.22], { at_day: 56 }),
  inventedEffect("landmark_difference", [0.05, -0.1, 0.2], { at_day: 56, ...adjusted }),
  inventedEffect("landmark_difference", [0.16, 0.01, 0.31], { at_day: 91 }),
  inventedEffect("landmark_difference", [0.11, -0.05, 0.27], { at_day: 91, ...adjusted }),
  inventedEffect("landmark_difference", [0.03, -0.09, 0.15], { at_day: 182 }),
  inventedEffect("landmark_difference", [null, null, null], { at_day: 182, ...adjusted }),
  inventedEffect("restricted_mean_difference", [-9.4, -22.1, 4.2], { at_day: 182 }),
  inventedEffect("restricted_mean_difference", [-6.1, -19.6, 7.4], { at_day: 182, ...adjusted }),
  inventedEffect("hazard_ratio", [1.38, 0.97, 1.96]),
  inventedEffect("hazard_ratio", [1.22, 0.83, 1.79], adjusted),
];
