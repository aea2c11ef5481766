/** Factors are looked at from this one's inverse up to it: beyond, the lost are all back, or none of them ever. */
export const widestFactor = 100;

/** Places in each direction at which it is looked whether the answer has changed, before the place itself is found. */
const looks = 24;
/** Halvings of the logarithm of the factor. */
const halvings = 48;

/** By what factor an answer first becomes another one. */
export interface Tipping {
  /** The answer at the factor 1, and the one that it becomes; null where it stays. */
  readonly from: -1 | 0 | 1;
  readonly to: -1 | 0 | 1 | null;
  /** Least unlike 1, on a scale of ratios; null where no factor from 1/100 to 100 changes the answer. */
  readonly factor: number | null;
  /** Whether the answer is the same even where all of the lost are back, or none. */
  readonly holdsAtBounds: boolean;
}

/**
 * The factor nearest to 1, a factor and its inverse being equally near, at which an answer changes; null where there is none at the factor 1.
 *
 * @param answerAt below, across or above what is asked about, null where it is not known; it is taken to change once or not at all between two
 *   places at which it is looked
 */
export function tippingOf(answerAt: (factor: number) => -1 | 0 | 1 | null): Tipping | null {
  const from = answerAt(1);
  if (from === null) return null;
  const found = ([1, -1] as const)
    .flatMap((way) => changeOn(way, { answerAt, from }))
    .toSorted((one, other) => Math.abs(one.log) - Math.abs(other.log))[0];
  const bounds = [answerAt(0), answerAt(Number.POSITIVE_INFINITY)];
  return {
    from,
    to: found?.to ?? null,
    factor: found === undefined ? null : Math.exp(found.log),
    holdsAtBounds: found === undefined && bounds.every((answer) => answer === from),
  };
}

interface Change {
  /** Logarithm of the factor. */
  readonly log: number;
  readonly to: -1 | 0 | 1;
}

/** The first change of the answer at factors above 1, or below; none, or one. */
function changeOn(
  way: 1 | -1,
  { answerAt, from }: { readonly answerAt: (factor: number) => -1 | 0 | 1 | null; readonly from: -1 | 0 | 1 },
): readonly Change[] {
  const step = (way * Math.log(widestFactor)) / looks;
  for (let look = 1; look <= looks; look++) {
    const to = answerAt(Math.exp(look * step));
    if (to === null || to === from) continue;
    let same = (look - 1) * step;
    let other = look * step;
    for (let round = 0; round < halvings; round++) {
      const middle = (same + other) / 2;
      if (answerAt(Math.exp(middle)) === from) same = middle;
      else other = middle;
    }
    return [{ log: other, to }];
  }
  return [];
}
