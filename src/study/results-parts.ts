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
  "few-not-back",
  "not-positive",
  "one-reading-only",
  "not-computed",
  "between-visits",
  "small-cell",
] as const;
export type ReasonCode = (typeof reasons)[number];

/** Why a stratum, or rows without a covariate, are left out of an effect. */
export const leftOutReasons = [
  "too-few-rows",
  "beyond-follow-up",
  "one-group",
  "missing-covariate",
  "no-events",
] as const;

/** What stands in place of a count behind which there are too few people to be told of; it is read in sentences as well. */
export const smallCell = "[left out]";

/** A number of injuries, people or rows. */
export const count = z
  .union([z.number().int().min(0), z.literal(smallCell)])
  .describe(
    "A whole number; [left out] where too few people are behind it, or it would give such a count away, and small cells are left out",
  );
export type Count = z.infer<typeof count>;
/** A whole number that counts nobody: days, rows of a sheet, patterns. */
export const whole = z.number().int().min(0);
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
