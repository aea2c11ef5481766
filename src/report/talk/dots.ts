import type { Estimate } from "../../study/results.js";

/** So many dots stand in a row, and so many injuries are shown as people whom one can picture. */
export const dotsInRow = 20;

/**
 * A page is made for no fewer injuries, and no fewer people, than a row has dots: a picture of twenty people must not rest on fewer than it
 * shows. With 20 injuries the 95 % interval of a half covers about half of the row already (common practice, no source).
 */
export const fewestInjuries = dotsInRow;

/** A range that covers more dots than this leaves the answer open, and is not drawn. */
const widestRange = dotsInRow / 2;

/** A share back as dots. */
export interface Dots {
  /** The share in dots, to the nearest. */
  readonly back: number;
  /** The limits of its interval in whole dots, rounded outwards, so that no range is narrower than the interval. */
  readonly from: number;
  readonly to: number;
  /** Fewer than one dot, though some were back; or more than nineteen, though not all. */
  readonly nearly: "none" | "all" | null;
}

/** The dots of a share with its interval; null where there is no share or no whole interval. */
export function dotsOf({ value, lower, upper }: Estimate): Dots | null {
  if (value === null || lower === null || upper === null) return null;
  const back = Math.round(inDots(value));
  const nearly = back === 0 && value > 0 ? "none" : back === dotsInRow && value < 1 ? "all" : null;
  return { back, from: Math.floor(inDots(lower)), to: Math.ceil(inDots(upper)), nearly };
}

/** Whether the range says enough to be drawn. */
export const isNarrowEnough = ({ from, to }: Dots): boolean => to - from <= widestRange;

/** A share in dots; noise in its last digits does not count. */
const inDots = (share: number): number => Number((dotsInRow * share).toPrecision(12));

/** So many of so many as dots, to the nearest. */
export const nearestDots = (part: number, whole: number): number => Math.round(inDots(part / whole));

/** The dots that so many of so many are at most. */
export const mostDots = (part: number, whole: number): number => Math.ceil(inDots(part / whole));
