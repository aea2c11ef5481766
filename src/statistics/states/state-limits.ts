import { intervalScales, limitsOfCurve } from "../survival/curve-intervals.js";
import { scoreLimits } from "../survival/score-limits.js";
import { sizedShare } from "../survival/small-sample.js";

export const stateScales = ["score", ...intervalScales] as const;
export type StateScale = (typeof stateScales)[number];

/** A share with what its limits are made of. */
export interface ShareOfState {
  readonly share: number;
  readonly standardError: number;
  /** How many tell of a share that is 0 or 1, see sizeOf. */
  readonly size: number;
}

/** What there is to tell of a share that is 0 or 1. */
export interface Seen {
  readonly share: number;
  /** Subjects whose state is known: followed just before the time, or in a state that nobody can leave. */
  readonly known: number;
  /** Moves into the state, and out of it, by the time. */
  readonly entered: number;
  readonly left: number;
}

/**
 * Independent units that tell of a share of 0 or 1: those whose state is known; of a state that all have left those who were seen to leave, of
 * one that all have come to those who were seen to come, where these are more.
 */
export function sizeOf(
  { share, known, entered, left }: Seen,
  { n, units }: { readonly n: number; readonly units: number },
): number {
  const moved = share === 0 ? left : share === 1 ? entered : 0;
  return (Math.min(n, Math.max(known, moved)) * units) / n;
}

/** Limits of each share; null where there are none: nobody to tell by, or a share of 0 or 1 on another scale than the score's. */
export function limitsOfStates(
  shares: readonly ShareOfState[],
  { scale, z }: { readonly scale: StateScale; readonly z: number },
): { readonly lower: (number | null)[]; readonly upper: (number | null)[] } {
  if (scale !== "score") {
    const errorsOfLog = shares.map(({ share, standardError }) => standardError / share);
    return limitsOfCurve({ shares: shares.map(({ share }) => share), errorsOfLog }, { scale, z });
  }
  const limits = shares.map((one) => (hasScoreLimits(one) ? scoreLimits(sizedShare(pointOf(one)), z) : null));
  // at the ends the formula is 0 or 1 but for rounding
  return {
    lower: limits.map((pair, i) => pair && (shares[i]!.share === 0 ? 0 : pair[0])),
    upper: limits.map((pair, i) => pair && (shares[i]!.share === 1 ? 1 : pair[1])),
  };
}

/** A share between 0 and 1 without error is one whose rows cancel within their clusters: nothing tells how sure it is. */
export const hasScoreLimits = ({ share, standardError, size }: ShareOfState): boolean =>
  share > 0 && share < 1 ? standardError > 0 : size > 0;

/** The share as the score limits of survival take it. */
export const pointOf = ({ share, standardError, size }: ShareOfState) => ({
  returned: share,
  standardError,
  atRisk: size,
  n: size,
});
