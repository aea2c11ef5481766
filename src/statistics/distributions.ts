/**
 * The distribution functions that tests and intervals need. Tails are computed directly, never as 1 minus the other tail,
 * so that a p-value of 1e-40 is 1e-40. The only file that imports the library of special functions.
 */
import betainc from "@stdlib/math-base-special-betainc";
import erfc from "@stdlib/math-base-special-erfc";
import erfcinv from "@stdlib/math-base-special-erfcinv";
import gammainc from "@stdlib/math-base-special-gammainc";
import chiSquareLibraryQuantile from "@stdlib/stats-base-dists-chisquare-quantile";
import fLibraryQuantile from "@stdlib/stats-base-dists-f-quantile";
import tLibraryQuantile from "@stdlib/stats-base-dists-t-quantile";
import { checkNumber } from "./arguments.js";

/** P(Z > z) of the standard normal distribution. */
export const normalUpperTail = (z: number): number => erfc(z / Math.SQRT2) / 2;

/** P(|Z| > |z|): the two-sided p-value of a normal statistic. */
export const normalTwoSided = (z: number): number => erfc(Math.abs(z) / Math.SQRT2);

/** The z with P(Z <= z) = p, for p from 0 to 1; by way of the nearer tail. */
export const normalQuantile = (p: number): number =>
  p <= 0.5 ? -Math.SQRT2 * erfcinv(2 * p) : Math.SQRT2 * erfcinv(2 * (1 - p));

/** P(X > x) of chi-square with df degrees of freedom; x >= 0, df > 0. */
export const chiSquareUpperTail = (x: number, df: number): number => gammainc(x / 2, df / 2, true, true);

/** The x with P(X <= x) = p of chi-square with df degrees of freedom. */
export const chiSquareQuantile = (p: number, df: number): number => chiSquareLibraryQuantile(p, df);

/**
 * P(|T| > |t|) of Student's t with df degrees of freedom (any real df > 0).
 * The beta function is taken at whichever of x and 1 - x is computed without cancellation.
 */
export function tTwoSided(t: number, df: number): number {
  const square = t * t;
  return square > df
    ? betainc(df / (df + square), df / 2, 0.5, true, false)
    : betainc(square / (df + square), 0.5, df / 2, true, true);
}

/** P(T > t) of Student's t. */
export const tUpperTail = (t: number, df: number): number =>
  t >= 0 ? tTwoSided(t, df) / 2 : 1 - tTwoSided(t, df) / 2;

/** The t with P(T <= t) = p of Student's t. */
export const tQuantile = (p: number, df: number): number => tLibraryQuantile(p, df);

/** P(F > f) of the F distribution with df1 and df2 degrees of freedom; f >= 0. */
export function fUpperTail(
  f: number,
  df: { readonly numerator: number; readonly denominator: number },
): number {
  const scaled = df.numerator * f;
  return scaled > df.denominator
    ? betainc(df.denominator / (df.denominator + scaled), df.denominator / 2, df.numerator / 2, true, false)
    : betainc(scaled / (df.denominator + scaled), df.numerator / 2, df.denominator / 2, true, true);
}

/** The f with P(F <= f) = p. */
export const fQuantile = (
  p: number,
  df: { readonly numerator: number; readonly denominator: number },
): number => fLibraryQuantile(p, df.numerator, df.denominator);

/**
 * Half-width multiplier of a two-sided normal interval: 1.959964 for level 0.95.
 * @throws ArgumentError for a level outside (0, 1)
 */
export function normalCritical(level: number): number {
  checkNumber({ name: "level", value: level }, "open share");
  return Math.SQRT2 * erfcinv(1 - level);
}

/** Half-width multiplier of a two-sided interval by Student's t. @throws ArgumentError for a level outside (0, 1) */
export function tCritical(level: number, df: number): number {
  checkNumber({ name: "level", value: level }, "open share");
  return -tQuantile((1 - level) / 2, df);
}
