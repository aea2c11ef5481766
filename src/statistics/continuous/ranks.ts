/** Ranks from 1, equal values sharing the mean of theirs, and what the ties take off the variance. */
export interface Ranks {
  readonly ranks: Float64Array;
  /** Sum of t^3 - t over runs of t equal values. */
  readonly tieTerm: number;
  readonly hasTies: boolean;
}

/** Ranks of the values, ties by exact comparison. */
export function midranks(values: ArrayLike<number>): Ranks {
  const n = values.length;
  const order = Uint32Array.from({ length: n }, (_, row) => row).sort(
    (one, two) => values[one]! - values[two]!,
  );
  const ranks = new Float64Array(n);
  let tieTerm = 0;
  for (let from = 0; from < n; ) {
    let to = from + 1;
    while (to < n && values[order[to]!] === values[order[from]!]) to++;
    const tied = to - from;
    for (let i = from; i < to; i++) ranks[order[i]!] = (from + to + 1) / 2;
    tieTerm += tied * (tied * tied - 1);
    from = to;
  }
  return { ranks, tieTerm, hasTies: tieTerm > 0 };
}

/** Ascending copy. */
export const sortedOf = (values: ArrayLike<number>): Float64Array => Float64Array.from(values).sort();
