/**
 * Why a figure has no value. The report puts each into a sentence; nothing here is a sentence.
 *
 * - `no-rows`: nothing was passed in
 * - `not-reached`: the curve, or its limit, does not come down to the share asked for
 * - `beyond-follow-up`: the time asked for lies after the last follow-up, and not everybody had the event
 * - `no-events`: no event was seen where the figure needs one
 * - `all-returned`: the curve is at 0, where the variance of its logarithm is not defined
 * - `monotone-likelihood`: the likelihood rises for ever as the coefficient goes to infinity
 * - `no-covariates`: a test of all covariates of a model that has none
 * - `collinear`: the covariate is constant or a combination of those listed before it
 * - `not-converged`: the iterations ran out
 * - `one-group`: a comparison with a single group at risk
 * - `no-overlap`: no stratum holds enough of both groups
 * - `no-variance`: a standard error of 0, or none at all, where a test would divide by it
 * - `too-few-rows`: fewer rows than the figure needs
 * - `not-positive`: a ratio or logarithm of something that is 0 or negative
 */
export type Reason =
  | "no-rows"
  | "not-reached"
  | "beyond-follow-up"
  | "no-events"
  | "all-returned"
  | "monotone-likelihood"
  | "no-covariates"
  | "collinear"
  | "not-converged"
  | "one-group"
  | "no-overlap"
  | "no-variance"
  | "too-few-rows"
  | "not-positive";

/** A number, or no number and the reason for it. */
export type Figure = { readonly value: number } | { readonly value: null; readonly reason: Reason };

/** What a contrast needs of each side: both null where there is no estimate. */
export interface Estimate {
  readonly estimate: number | null;
  readonly standardError: number | null;
}

/** A statistic that follows chi-square (or F, see the function) when nothing is going on. */
export interface TestResult {
  readonly statistic: number | null;
  readonly df: number;
  readonly p: number | null;
  readonly reason: Reason | null;
}
