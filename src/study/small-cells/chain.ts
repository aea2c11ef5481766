/** A place on a line and what has been counted up to it. */
export interface Mark {
  readonly at: number;
  readonly counted: number;
}

/**
 * Marks between which either nothing is counted or enough: taken in the order of preference, each only if it leaves no
 * small count between itself and its neighbours. What is counted before the first mark and after the last is held to
 * the same.
 *
 * @param marks in the order in which they are wanted; what is counted never falls along the line
 * @param ends whole: what is counted at the end of the line; isEnough: whether a count may be told of
 * @returns the marks that are kept, in the order of the line
 */
export function marksApart(
  marks: readonly Mark[],
  { whole, isEnough }: { readonly whole: number; readonly isEnough: (n: number) => boolean },
): readonly Mark[] {
  const kept: Mark[] = [];
  for (const mark of marks) {
    const next = kept.findIndex(({ at }) => at >= mark.at);
    const place = next < 0 ? kept.length : next;
    if (kept[place]?.at === mark.at) continue;
    const before = kept[place - 1]?.counted ?? 0;
    const after = kept[place]?.counted ?? whole;
    if (isEnough(mark.counted - before) && isEnough(after - mark.counted)) kept.splice(place, 0, mark);
  }
  return kept;
}
