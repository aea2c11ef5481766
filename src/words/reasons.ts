import type { EffectResult, ReasonCode } from "../study/results.js";

/** Why a figure or a limit is missing, to stand in a cell, in a figure or after a colon. */
export const reasons: Readonly<Record<ReasonCode, string>> = {
  "no-rows": "no injuries",
  "no-events": "no return observed",
  "not-reached": "not reached during follow-up",
  "beyond-follow-up": "follow-up ends earlier",
  "one-group": "one group only",
  "too-few-rows": "too few injuries",
  "no-overlap": "no stratum has enough injuries of both groups",
  "monotone-likelihood": "no finite estimate",
  "not-computed": "not computed",
  "no-covariates": "nothing to adjust for",
  "between-visits": "not given where returns are known only between two days",
  "small-cell": "left out: too few people",
  collinear: "the covariates cannot be separated",
  "not-converged": "the calculation did not converge",
  "all-returned": "all still followed had returned",
  "no-variance": "the values do not vary",
  "few-not-back": "so few injuries leave open how many are never back, on which the mean hangs",
  "not-positive": "a value is not above zero",
  "one-reading-only": "one reading only",
};

/** The reason in words; a missing figure without a reason is said to be just that. */
export const reasonWords = (reason: ReasonCode | null): string =>
  reason === null ? "not available" : reasons[reason];

type LeftOutReason = EffectResult["left_out"][number]["reason"];

/** Why a stratum is not part of an adjusted difference. */
export const stratumReasons: Readonly<Record<LeftOutReason, string>> = {
  "too-few-rows": "too few injuries in either group",
  "beyond-follow-up": "follow-up ends before the day of the comparison",
  "one-group": "injuries of one group only",
  "no-events": "nobody of either group is known to be back",
  "missing-covariate": "not recorded in these injuries, which are therefore compared with none",
};
