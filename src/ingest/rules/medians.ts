/** Numbers in ascending order. */
export const ascending = (values: ArrayLike<number>): Float64Array => Float64Array.from(values).sort();

/** The middle value; the mean of the two middle ones where their number is even. */
export const median = (values: ArrayLike<number>): number => middleOf(ascending(values));

/** The median of values that are in ascending order. */
export function middleOf(sorted: ArrayLike<number>): number {
  const middle = Math.floor(sorted.length / 2);
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}

/** Values in ascending order without some of them, which are in ascending order too. */
export function without(sorted: Float64Array, some: Float64Array): Float64Array {
  const left = new Float64Array(sorted.length - some.length);
  let kept = 0;
  let next = 0;
  for (const value of sorted) {
    if (next < some.length && value === some[next]) next += 1;
    else left[kept++] = value;
  }
  return left;
}
