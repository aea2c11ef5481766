import { z } from "zod";

/** Why a figure has no value, or only one limit. */
export const reasons = [
  "no-rows",
  "no-events",
  "not-reached",
  "beyond-follow-up",
  "one-group",
  "too-few-rows",
  "no-overlap",
  "monotone-likelihood",
  "no-covariates",
  "collinear",
  "not-converged",
  "all-returned",
  "no-variance",
  "not-positive",
  "one-reading-only",
  "not-computed",
] as const;
export type ReasonCode = (typeof reasons)[number];

export const count = z.number().int().min(0);
export const maybe = z.number().nullable();
export const reason = z.enum(reasons).nullable();

/** A figure with its interval; a missing value or limit carries its reason. */
export const estimate = z.strictObject({
  value: maybe,
  lower: maybe,
  upper: maybe,
  reason: reason.describe("Why value is null, or why a limit is; null when nothing is missing"),
});
export type Estimate = z.infer<typeof estimate>;
