/** Injuries with the event, and all, of each site; effective numbers may have a fraction. */
export interface SiteCounts {
  readonly events: Float64Array;
  readonly sizes: Float64Array;
}

/** At a mean and a spread of the log odds: log likelihood, its slopes and its curvature in the mean. */
export interface LikelihoodAt {
  readonly logLikelihood: number;
  readonly slopeInMean: number;
  /** In tau. */
  readonly slopeInSpread: number;
  /** Minus the second derivative in the mean. */
  readonly information: number;
}

export const shareOf = (eta: number): number =>
  eta > 0 ? 1 / (1 + Math.exp(-eta)) : Math.exp(eta) / (1 + Math.exp(eta));

interface Place {
  readonly mean: number;
  readonly tau: number;
}
interface OneSite {
  readonly events: number;
  readonly size: number;
}

interface Top {
  readonly z: number;
  /** 1 over the root of the curvature there. */
  readonly width: number;
}

/** Near enough to where the integrand over the site's own deviate is highest: Newton's steps on a slope that falls steadily, kept between ends. */
function topOf({ events, size }: OneSite, { mean, tau }: Place): Top {
  let [z, low, high] = [0, -tau * size - 1, tau * size + 1];
  for (let round = 0; ; round++) {
    const p = shareOf(mean + tau * z);
    const slope = tau * (events - size * p) - z;
    const curvature = 1 + tau * tau * size * p * (1 - p);
    const width = 1 / Math.sqrt(curvature);
    if (slope > 0) low = z;
    else high = z;
    const step = slope / curvature;
    if (Math.abs(step) < 0.01 * width || round === 60) return { z: z + step, width };
    z = z + step > low && z + step < high ? z + step : (low + high) / 2;
  }
}

/** Sums over a site's deviates, each weighted by its part of the likelihood over that at the top. */
interface Sums {
  total: number;
  beyond: number;
  squares: number;
  spread: number;
  within: number;
}

/** exp(-37) is less than a rounding error of the whole. */
const nothing = -37;

/** Adds what a deviate brings; returns the logarithm of its part, and that of the top where there is none yet. */
function addAt(
  sums: Sums,
  z: number,
  at: { readonly site: OneSite; readonly place: Place; readonly top: number },
): number {
  const { site, place, top } = at;
  const eta = place.mean + place.tau * z;
  const tail = Math.exp(-Math.abs(eta));
  const p = eta > 0 ? 1 / (1 + tail) : tail / (1 + tail);
  const log = site.events * eta - site.size * (Math.max(eta, 0) + Math.log1p(tail)) - (z * z) / 2;
  const weight = Math.exp(log - top);
  const beyond = site.events - site.size * p;
  sums.total += weight;
  sums.beyond += weight * beyond;
  sums.squares += weight * beyond * beyond;
  sums.spread += weight * beyond * z;
  sums.within += weight * site.size * p * (1 - p);
  return log;
}

/**
 * A site's part: its likelihood, and moments of x - m p over the deviates that its counts allow.
 *
 * The integrals are sums at equal steps, outwards from the top until nothing is left. Such a sum errs by exp(-2 pi a / step) where the
 * integrand is analytic within a of the real line (Trefethen & Weideman): the steps are taken from its width and from the poles of the
 * logistic function at pi / tau.
 */
function siteAt(site: OneSite, place: Place): LikelihoodAt {
  const { z, width } = topOf(site, place);
  const step = place.tau === 0 ? 0.7 : Math.min(0.7 * width, 0.5 / place.tau);
  const sums: Sums = { total: 0, beyond: 0, squares: 0, spread: 0, within: 0 };
  const eta = place.mean + place.tau * z;
  const top =
    site.events * eta - site.size * (Math.max(eta, 0) + Math.log1p(Math.exp(-Math.abs(eta)))) - (z * z) / 2;
  const at = { site, place, top };
  addAt(sums, z, at);
  for (const side of [-step, step]) for (let k = 1; addAt(sums, z + k * side, at) - top > nothing; k++);
  const slope = sums.beyond / sums.total;
  return {
    logLikelihood: top + Math.log(sums.total * step) - Math.log(2 * Math.PI) / 2,
    slopeInMean: slope,
    slopeInSpread: sums.spread / sums.total,
    information: (sums.within - sums.squares) / sums.total + slope * slope,
  };
}

/** @param place tau: 0 or more */
export function likelihoodAt({ events, sizes }: SiteCounts, place: Place): LikelihoodAt {
  let [logLikelihood, slopeInMean, slopeInSpread, information] = [0, 0, 0, 0];
  for (let i = 0; i < sizes.length; i++) {
    const site = siteAt({ events: events[i]!, size: sizes[i]! }, place);
    logLikelihood += site.logLikelihood;
    slopeInMean += site.slopeInMean;
    slopeInSpread += site.slopeInSpread;
    information += site.information;
  }
  return { logLikelihood, slopeInMean, slopeInSpread, information };
}

/** The mean that fits best at a spread: the log likelihood is concave in it, so Newton's steps find its one top. Some event, and some without. */
export function meanAt(counts: SiteCounts, tau: number): number {
  const total = counts.sizes.reduce((sum, size) => sum + size, 0);
  const events = counts.events.reduce((sum, size) => sum + size, 0);
  let mean = Math.log(events / (total - events));
  let at = likelihoodAt(counts, { mean, tau });
  for (let round = 0; round < 100; round++) {
    let step = at.slopeInMean / at.information;
    let next = likelihoodAt(counts, { mean: mean + step, tau });
    for (let half = 0; half < 40 && next.logLikelihood < at.logLikelihood - 1e-9; half++) {
      step /= 2;
      next = likelihoodAt(counts, { mean: mean + step, tau });
    }
    mean += step;
    at = next;
    // each step squares the error of the one before
    if (Math.abs(step) <= 1e-9 * (1 + Math.abs(mean))) break;
  }
  return mean;
}

/** What each site tells of the mean, at a place. */
export const informationOf = ({ events, sizes }: SiteCounts, { mean, tau }: Place): readonly number[] =>
  Array.from(sizes, (size, i) => siteAt({ events: events[i]!, size }, { mean, tau }).information);
