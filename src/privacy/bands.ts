/**
 * The number that stands for the band a value lies in: the middle of the band, counted down to a whole number, so that
 * means and slopes stay near. From `highest` on there is one band, and `highest` stands for it.
 *
 * @param options width of a band, the first one beginning at 0; highest: where the open band begins
 * @example
 * // the middle of 25 to 29
 * banded(26, { width: 5, highest: 90 }) // => 27
 */
export function banded(
  value: number,
  { width, highest }: { readonly width: number; readonly highest: number },
): number {
  if (value >= highest) return highest;
  const from = Math.floor(value / width) * width;
  const to = Math.min(from + width, highest) - 1;
  return Math.floor((from + to) / 2);
}

/** A band in words: "25 to 29", "90 and over". */
export function bandInWords(
  value: number,
  { width, highest }: { readonly width: number; readonly highest: number },
): string {
  if (value >= highest) return `${highest} and over`;
  const from = Math.floor(value / width) * width;
  return `${from} to ${Math.min(from + width, highest) - 1}`;
}
