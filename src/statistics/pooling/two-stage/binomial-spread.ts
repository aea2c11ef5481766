import { rootBetween } from "../../shared/root.js";
import { type LikelihoodAt, likelihoodAt, meanAt, type SiteCounts } from "./binomial-normal.js";

export const shareSpreads = ["restricted-likelihood", "likelihood"] as const;
export type ShareSpread = (typeof shareSpreads)[number];

/** Spread of the log odds between sites, and the mean that goes with it. */
export interface BinomialFit {
  readonly tau: number;
  readonly mean: number;
  readonly at: LikelihoodAt;
  readonly logLikelihood: number;
  readonly atZero: boolean;
  /** Whether the likelihood is level in tau there; false where it still rises at the largest spread that is looked at. */
  readonly converged: boolean;
}

/** A standard deviation of 0.02 on the log odds is none that sites could show; at 20 all sites have nobody or everybody. */
const smallest = 0.02;
const growth = 2.5;
export const largestSpread = 20;

interface Profile {
  readonly logLikelihood: number;
  readonly slope: number;
}

const ofLikelihood = (counts: SiteCounts, tau: number): Profile => {
  const { logLikelihood, slopeInSpread } = likelihoodAt(counts, { mean: meanAt(counts, tau), tau });
  return { logLikelihood, slope: slopeInSpread };
};

/** The sum over the mean: steps in its standard errors, outwards until exp(-25) of the top is left. */
const stepOverMean = 0.8;
const nothing = -25;

/** The mean integrated out under a flat weight: of normal estimates this is the restricted likelihood, digit for digit. */
function ofRestricted(counts: SiteCounts, tau: number): Profile {
  const middle = meanAt(counts, tau);
  const top = likelihoodAt(counts, { mean: middle, tau });
  const step = stepOverMean / Math.sqrt(top.information);
  let [sum, slope] = [1, top.slopeInSpread];
  for (const side of [-step, step]) {
    let log = 0;
    for (let k = 1; log > nothing; k++) {
      const at = likelihoodAt(counts, { mean: middle + k * side, tau });
      log = at.logLikelihood - top.logLikelihood;
      sum += Math.exp(log);
      slope += Math.exp(log) * at.slopeInSpread;
    }
  }
  return { logLikelihood: top.logLikelihood + Math.log(step * sum), slope: slope / sum };
}

const profiles: Readonly<Record<ShareSpread, (counts: SiteCounts, tau: number) => Profile>> = {
  likelihood: ofLikelihood,
  "restricted-likelihood": ofRestricted,
};

/** Every tau at which the likelihood stops rising, and 0; the last one where it rises to the end. */
function tops(counts: SiteCounts, profile: (counts: SiteCounts, tau: number) => Profile): readonly number[] {
  const slope = (tau: number): number => profile(counts, tau).slope;
  const found = [0];
  let [before, slopeBefore] = [smallest, slope(smallest)];
  while (before < largestSpread) {
    const next = Math.min(largestSpread, before * growth);
    const slopeNext = slope(next);
    if (slopeBefore > 0 && slopeNext <= 0) found.push(rootBetween(slope, [before, next]));
    [before, slopeBefore] = [next, slopeNext];
  }
  return slopeBefore > 0 ? [...found, largestSpread] : found;
}

/**
 * The spread of the log odds between sites of highest likelihood.
 *
 * @param counts some event and some injury without one among them
 */
export function binomialSpread(counts: SiteCounts, method: ShareSpread): BinomialFit {
  const profile = profiles[method];
  const heights = tops(counts, profile).map((tau) => ({ tau, ...profile(counts, tau) }));
  const { tau, logLikelihood } = heights.reduce((best, next) =>
    next.logLikelihood > best.logLikelihood ? next : best,
  );
  const mean = meanAt(counts, tau);
  return {
    tau,
    mean,
    at: likelihoodAt(counts, { mean, tau }),
    logLikelihood,
    atZero: tau === 0,
    converged: tau < largestSpread,
  };
}
