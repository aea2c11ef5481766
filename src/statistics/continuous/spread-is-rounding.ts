/** Differences that vary by rounding only do not vary: 3.1 - 2.1 is not 4.1 - 3.1 to the last bit. */
export function spreadIsRounding(
  deviation: number,
  { first, second }: { readonly first: ArrayLike<number>; readonly second: ArrayLike<number> },
): boolean {
  let largest = 0;
  for (let row = 0; row < first.length; row++)
    largest = Math.max(largest, Math.abs(first[row]!), Math.abs(second[row]!));
  return deviation <= 4 * Number.EPSILON * largest;
}
