import { normalLowerTail, normalTwoSided, normalUpperTail } from "../shared/distributions.js";
import type { Reason } from "../shared/figure.js";
import { confidenceLevel, type OptionsOf, oneOf } from "../shared/options.js";

/** A rank statistic against its mean and variance, by the normal distribution. */
export interface NormalRankTest {
  /** Of the statistic when nothing is going on; less for ties. */
  readonly variance: number;
  readonly z: number | null;
  readonly p: number | null;
  /** With the statistic moved half a unit towards its mean. */
  readonly zCorrected: number | null;
  readonly pCorrected: number | null;
  /** One-sided, corrected: small where the statistic is small, and where it is large. */
  readonly less: number | null;
  readonly greater: number | null;
  readonly reason: Reason | null;
}

export function normalRankTest(apart: number, variance: number): NormalRankTest {
  if (!(variance > 0)) {
    const none = { z: null, p: null, zCorrected: null, pCorrected: null, less: null, greater: null };
    return { variance: 0, ...none, reason: "no-variance" };
  }
  const deviation = Math.sqrt(variance);
  const z = apart / deviation;
  const zCorrected = (Math.sign(apart) * Math.max(0, Math.abs(apart) - 0.5)) / deviation;
  return {
    variance,
    z,
    p: normalTwoSided(z),
    zCorrected,
    pCorrected: normalTwoSided(zCorrected),
    less: normalLowerTail((apart + 0.5) / deviation),
    greater: normalUpperTail((apart - 0.5) / deviation),
    reason: null,
  };
}

/** How the p-value of a rank test is found, and where ranks are tied. */
export const rankTestOptions = {
  /** Confidence level of the limits of the shift. Default 0.95. */
  level: confidenceLevel,
  /** Default "automatic": exact up to about a hundred values, normal beyond. */
  method: oneOf(["automatic", "exact", "normal"], "automatic"),
  /** Of the p-value of the normal approximation. Default "half". */
  continuity: oneOf(["half", "none"], "half"),
};

export interface RankTestOptions extends OptionsOf<typeof rankTestOptions> {}
