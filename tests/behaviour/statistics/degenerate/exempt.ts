/** Functions of single numbers: distributions and their like. */
export const numberHelpers: readonly string[] = [
  "betaLowerTail",
  "betaQuantile",
  "betaUpperTail",
  "binomialDensity",
  "binomialLowerTail",
  "binomialQuantile",
  "binomialUpperTail",
  "chiSquareLowerTail",
  "chiSquareQuantile",
  "chiSquareUpperTail",
  "fLowerTail",
  "fQuantile",
  "fUpperTail",
  "logGamma",
  "noncentralTTails",
  "normalCritical",
  "normalDensity",
  "normalLogLowerTail",
  "normalLowerTail",
  "normalQuantile",
  "normalTwoSided",
  "normalUpperTail",
  "tCritical",
  "tLowerTail",
  "tQuantile",
  "tTwoSided",
  "tUpperTail",
];

/** Other exports that take no data: the error, the generator, critical values of a range. */
export const withoutData: readonly string[] = [
  "ArgumentError",
  "equalPrecisionCritical",
  "hallWellnerCritical",
  "seededGenerator",
];
