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
    (a, b) => (scores[a] as number) - (scores[b] as number),
  );
  let below = 0;
  let withOutcome = 0;
  let pairs = 0;
  for (let from = 0; from < order.length; ) {
    let to = from;
    let positive = 0;
    let negative = 0;
    while (to < order.length && scores[order[to]!] === scores[order[from]!]) {
      const row = order[to]!;
      if (outcome[row] === 1) positive += weights[row] as number;
      else negative += weights[row] as number;
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
