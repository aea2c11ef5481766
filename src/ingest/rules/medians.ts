/** Numbers in ascending order. */
export const ascending = (values: ArrayLike<number>): Float64Array => Float64Array.from(values).sort();

/** The middle value; the mean of the two middle ones where their number is even. */
export const median = (values: ArrayLike<number>): number => middleOf(ascending(values));

/** The median of values that are in ascending order. */
export function middleOf(sorted: ArrayLike<number>): number {
  const middle = Math.floor(sorted.length / 2);
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}

/** The median of values in ascending order without some of them, which are in ascending order too. */
export function middleWithout(sorted: Float64Array, some: Float64Array): number {
  const left = sorted.length - some.length;
  const at = (place: number): number => valueLeft(sorted, { some, place });
  const middle = Math.floor(left / 2);
  return left % 2 === 1 ? at(middle) : (at(middle - 1) + at(middle)) / 2;
}

/** The value in a place once some are taken out: the first of which enough are left up to and including it. */
function valueLeft(
  sorted: Float64Array,
  { some, place }: { readonly some: Float64Array; readonly place: number },
): number {
  let [from, to] = [place, Math.min(sorted.length - 1, place + some.length)];
  while (from < to) {
    const middle = (from + to) >> 1;
    const value = sorted[middle]!;
    const left = countUpTo(sorted, value) - countUpTo(some, value);
    if (left > place) to = middle;
    else from = middle + 1;
  }
  return sorted[from]!;
}

/** How many of some values in ascending order are no larger than one. */
function countUpTo(sorted: Float64Array, value: number): number {
  let [from, to] = [0, sorted.length];
  while (from < to) {
    const middle = (from + to) >> 1;
    if (sorted[middle]! <= value) from = middle + 1;
    else to = middle;
  }
  return from;
}
