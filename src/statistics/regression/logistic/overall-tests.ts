import { factorSymmetric, quadraticForm } from "../../linear/symmetric.js";
import { chiSquareUpperTail } from "../../shared/distributions.js";
import type { Reason, TestResult } from "../../shared/figure.js";
import type { Evaluation } from "./objective.js";

export const noTest = (reason: Reason, df = 0): TestResult => ({ statistic: null, df, p: null, reason });

/** Chi-square with its p. */
export const chiSquare = (statistic: number, df: number): TestResult => ({
  statistic,
  df,
  p: chiSquareUpperTail(statistic, df),
  reason: null,
});

/** U' I^-1 U where all coefficients but the intercepts are 0. */
export function scoreTest({ gradient, information }: Evaluation, df: number): TestResult {
  const factor = factorSymmetric(information, { size: gradient.length, tolerance: 1e-15 });
  return chiSquare(quadraticForm(factor, gradient), df);
}

/** b' V^-1 b over some of the variables. */
export function waldTest(
  of: { readonly point: Float64Array; readonly covariance: Float64Array },
  over: readonly number[],
): TestResult {
  const size = of.point.length;
  const count = over.length;
  const block = new Float64Array(count * count);
  over.forEach((i, a) => {
    over.forEach((j, b) => {
      block[a * count + b] = of.covariance[i * size + j]!;
    });
  });
  const factor = factorSymmetric(block, { size: count, tolerance: 1e-12 });
  const values = over.map((i) => of.point[i]!);
  return factor.kept.length === 0 && count > 0
    ? noTest("no-variance", count)
    : chiSquare(quadraticForm(factor, values), factor.kept.length);
}
