import type { EffectResult, ReasonCode } from "../../study/results.js";

/** Why a figure or a limit is missing, to stand after a colon or in a cell. */
export const reasonWords: Readonly<Record<ReasonCode, string>> = {
  "no-rows": "there are no injuries to count",
  "no-events": "no return was seen",
  "not-reached": "not reached by the end of follow-up",
  "beyond-follow-up": "follow-up ends earlier",
  "one-group": "there is only one group",
  "too-few-rows": "there are too few injuries",
  "no-overlap": "no stratum holds enough injuries of both groups",
  "monotone-likelihood": "the data put no bound on the ratio",
  "not-computed": "not computed here",
  "no-covariates": "there is nothing to adjust for",
  "small-cell": "left out, since too few people are behind it",
  collinear: "the fields cannot be told apart in these data",
  "not-converged": "the calculation did not settle",
  "all-returned": "everybody still followed was back, which leaves no interval",
  "no-variance": "the values do not vary",
  "not-positive": "a value is not above zero",
  "one-reading-only": "there is one reading only",
};

type LeftOutReason = EffectResult["left_out"][number]["reason"];

/** Why a stratum is not part of an adjusted difference. */
export const leftOutWords: Readonly<Record<LeftOutReason, string>> = {
  "too-few-rows": "too few injuries in either group",
  "beyond-follow-up": "follow-up ends before the day compared",
  "one-group": "injuries of one group only",
  "missing-covariate": "a field to be held equal is not recorded",
};

/** The reason in words; a missing figure without a reason is said to be just that. */
export const sayReason = (reason: ReasonCode | null): string =>
  reason === null ? "not available" : reasonWords[reason];
