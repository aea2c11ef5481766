/** Scores closer than this are equal but for the rounding of two ways to the same sum. */
const rounding = 1e-10;

const equal = (a: number, b: number): boolean => a === b || Math.abs(a - b) <= rounding * (1 + Math.abs(a));

/**
 * Chance that of two rows with different outcomes the one with the outcome has the higher score (ties one half), rows counted by weight: the
 * area under the receiver-operating curve.
 *
 * @returns null with one outcome only
 * @source Bamber 1975, J Math Psychol 12:387
 */
export function concordanceOf(columns: {
  readonly outcome: ArrayLike<number>;
  readonly scores: ArrayLike<number>;
  readonly weights: ArrayLike<number>;
}): number | null {
  const { outcome, scores, weights } = columns;
  const order = Int32Array.from({ length: scores.length }, (_, row) => row).sort(
    (a, b) => scores[a]! - scores[b]!,
  );
  let below = 0;
  let withOutcome = 0;
  let pairs = 0;
  for (let from = 0; from < order.length; ) {
    let to = from;
    let positive = 0;
    let negative = 0;
    while (to < order.length && equal(scores[order[from]!]!, scores[order[to]!]!)) {
      const row = order[to]!;
      if (outcome[row] === 1) positive += weights[row]!;
      else negative += weights[row]!;
      to++;
    }
    pairs += positive * (below + negative / 2);
    below += negative;
    withOutcome += positive;
    from = to;
  }
  const all = withOutcome * below;
  return all > 0 ? pairs / all : null;
}
