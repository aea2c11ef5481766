/**
 * The same numbers as a plain array, as results hold them; itself if it is one. `Array.from` asks the iterator for each number and takes
 * ten times as long.
 */
export function plainArray(values: ArrayLike<number>): number[] {
  if (Array.isArray(values)) return values;
  const plain = new Array<number>(values.length);
  for (let i = 0; i < plain.length; i++) plain[i] = values[i]!;
  return plain;
}
