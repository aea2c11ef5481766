/**
 * The distribution functions that tests and intervals need. Tails are computed directly, never as 1 minus the other tail,
 * so that a p-value of 1e-40 is 1e-40. The only file that imports the library of special functions, but for its powers (power.ts).
 */
import betainc from "@stdlib/math-base-special-betainc";
import erfc from "@stdlib/math-base-special-erfc";
import erfcinv from "@stdlib/math-base-special-erfcinv";
import gammainc from "@stdlib/math-base-special-gammainc";
import gammaln from "@stdlib/math-base-special-gammaln";
import chiSquareLibraryQuantile from "@stdlib/stats-base-dists-chisquare-quantile";
import fLibraryQuantile from "@stdlib/stats-base-dists-f-quantile";
import tLibraryQuantile from "@stdlib/stats-base-dists-t-quantile";
import { checkNumber } from "./arguments.js";
import { largeBetaTails } from "./large-beta.js";
import { isLargeGamma, largeGammaTails } from "./large-gamma.js";

/** log of the gamma function, x > 0. */
export const logGamma = (x: number): number => gammaln(x);

/** Density of the standard normal distribution. */
export const normalDensity = (z: number): number => Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);

/** P(Z <= z) of the standard normal distribution. */
export const normalLowerTail = (z: number): number => erfc(-z / Math.SQRT2) / 2;

/** log P(Z <= z), also where the probability itself is 1 but for rounding. */
export const normalLogLowerTail = (z: number): number =>
  z > 0 ? Math.log1p(-normalUpperTail(z)) : Math.log(normalLowerTail(z));

/** P(Z > z) of the standard normal distribution. */
export const normalUpperTail = (z: number): number => erfc(z / Math.SQRT2) / 2;

/** P(|Z| > |z|): the two-sided p-value of a normal statistic. */
export const normalTwoSided = (z: number): number => erfc(Math.abs(z) / Math.SQRT2);

/** The z with P(Z <= z) = p, for p from 0 to 1; by way of the nearer tail. */
export const normalQuantile = (p: number): number =>
  p <= 0.5 ? -Math.SQRT2 * erfcinv(2 * p) : Math.SQRT2 * erfcinv(2 * (1 - p));

/** P(G <= x) of the gamma distribution of shape a and scale 1; x >= 0, a > 0. */
export const gammaLowerTail = (x: number, a: number): number => gammainc(x, a, true, false);

/** P(G > x) of the same. */
export const gammaUpperTail = (x: number, a: number): number => gammainc(x, a, true, true);

/** P(X > x) of chi-square with df degrees of freedom; x >= 0, df > 0. */
export const chiSquareUpperTail = (x: number, df: number): number =>
  isLargeGamma(x / 2, df / 2) ? largeGammaTails(x / 2, df / 2).upper : gammainc(x / 2, df / 2, true, true);

/** P(X <= x) of chi-square with df degrees of freedom; x >= 0, df > 0. */
export const chiSquareLowerTail = (x: number, df: number): number =>
  isLargeGamma(x / 2, df / 2) ? largeGammaTails(x / 2, df / 2).lower : gammainc(x / 2, df / 2, true, false);

/** The x with P(X <= x) = p of chi-square with df degrees of freedom; with many of them improved by Newton's steps on the nearer tail. */
export function chiSquareQuantile(p: number, df: number): number {
  let x = chiSquareLibraryQuantile(p, df);
  if (!isLargeGamma(x / 2, df / 2)) return x;
  for (let step = 0; step < 20; step++) {
    const { lower, upper, density } = largeGammaTails(x / 2, df / 2);
    const by = (p <= 0.5 ? p - lower : upper - (1 - p)) / (density / 2);
    x = Math.max(x + by, x / 2);
    if (Math.abs(by) <= 1e-15 * x) break;
  }
  return x;
}

/**
 * P(|T| > |t|) of Student's t with df degrees of freedom (any real df > 0).
 * The beta function is taken at whichever of x and 1 - x is computed without cancellation.
 */
export function tTwoSided(t: number, df: number): number {
  const square = t * t;
  return square > df
    ? betaLowerTail(df / (df + square), { a: df / 2, b: 0.5 })
    : betaUpperTail(square / (df + square), { a: 0.5, b: df / 2 });
}

/** P(T > t) of Student's t. */
export const tUpperTail = (t: number, df: number): number =>
  t >= 0 ? tTwoSided(t, df) / 2 : 1 - tTwoSided(t, df) / 2;

/** The t with P(T <= t) = p of Student's t. */
export const tQuantile = (p: number, df: number): number => tLibraryQuantile(p, df);

/** P(T <= t) of Student's t. */
export const tLowerTail = (t: number, df: number): number => tUpperTail(-t, df);

interface DegreesOfFreedom {
  readonly numerator: number;
  readonly denominator: number;
}

/** P(F > f) of the F distribution with df1 and df2 degrees of freedom; f >= 0. */
export const fUpperTail = (f: number, df: DegreesOfFreedom): number => tailsOfF(f, df).upper();

/** P(F <= f). */
export const fLowerTail = (f: number, df: DegreesOfFreedom): number => tailsOfF(f, df).lower();

/** By whichever of the two forms of the beta argument is computed without cancellation. */
function tailsOfF(f: number, { numerator, denominator }: DegreesOfFreedom) {
  const scaled = numerator * f;
  const half = { a: numerator / 2, b: denominator / 2 };
  const swapped = { a: half.b, b: half.a };
  const x = scaled / (denominator + scaled);
  const y = denominator / (denominator + scaled);
  return scaled > denominator
    ? { upper: () => betaLowerTail(y, swapped), lower: () => betaUpperTail(y, swapped) }
    : { upper: () => betaUpperTail(x, half), lower: () => betaLowerTail(x, half) };
}

/** The f with P(F <= f) = p. */
export const fQuantile = (p: number, df: DegreesOfFreedom): number =>
  fLibraryQuantile(p, df.numerator, df.denominator);

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

/** The two parameters of a beta distribution, both above 0. */
export interface BetaShape {
  readonly a: number;
  readonly b: number;
}

/** From here on the library's expansion loses digits (all of them near the mean at 1e9). */
const isLarge = ({ a, b }: BetaShape): boolean => a >= 15 && b >= 15 && a + b > 1000;

/** P(X <= x) of the beta distribution, x from 0 to 1. */
export const betaLowerTail = (x: number, shape: BetaShape): number =>
  isLarge(shape) && x > 0 && x < 1
    ? largeBetaTails(x, shape).lower
    : betainc(x, shape.a, shape.b, true, false);

/** P(X > x) of the beta distribution, x from 0 to 1. */
export const betaUpperTail = (x: number, shape: BetaShape): number =>
  isLarge(shape) && x > 0 && x < 1
    ? largeBetaTails(x, shape).upper
    : betainc(x, shape.a, shape.b, true, true);

/**
 * The x with P(X <= x) = p of the beta distribution, p from 0 to 1.
 *
 * By way of the quantile of F, which keeps its digits at both ends; for large parameters improved by Newton's steps on the tail.
 */
export function betaQuantile(p: number, shape: BetaShape): number {
  const f = fLibraryQuantile(p, 2 * shape.a, 2 * shape.b);
  if (f === Number.POSITIVE_INFINITY) return 1;
  let x = (shape.a * f) / (shape.a * f + shape.b);
  if (!isLarge(shape) || !(x > 0 && x < 1)) return x;
  for (let step = 0; step < 20; step++) {
    const { lower, upper, density } = largeBetaTails(x, shape);
    const by = (p <= 0.5 ? p - lower : upper - (1 - p)) / density;
    x = Math.min(Math.max(x + by, x / 2), (1 + x) / 2);
    if (Math.abs(by) <= 1e-15 * x) break;
  }
  return x;
}
