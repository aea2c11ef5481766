/**
 * Sums of values[from .. to], both included, in constant time after a pass for each doubling of the length; 0 where to < from.
 *
 * Only values inside the range are ever added: a difference of two running sums would carry the rounding of everything before the range,
 * which may be larger than the range by any power of ten.
 *
 * For each size of chunk the table holds the sums outward from the middle of the chunk; two places fall on either side of the middle of one
 * chunk only, that of the highest bit in which they differ.
 */
export function rangeSums(values: Float64Array): (from: number, to: number) => number {
  const { length } = values;
  const tables: Float64Array[] = [];
  for (let half = 1; half < length; half *= 2) tables.push(outwardSums(values, half));
  return (from, to) => {
    if (to < from) return 0;
    if (to === from) return values[from]!;
    const table = tables[31 - Math.clz32(from ^ to)]!;
    return table[from]! + table[to]!;
  };
}

function outwardSums(values: Float64Array, half: number): Float64Array {
  const sums = new Float64Array(values.length);
  for (let middle = half; middle < values.length; middle += 2 * half) {
    let sum = 0;
    for (let i = middle - 1; i >= middle - half; i--) {
      sum += values[i]!;
      sums[i] = sum;
    }
    sum = 0;
    const end = Math.min(values.length, middle + half);
    for (let i = middle; i < end; i++) {
      sum += values[i]!;
      sums[i] = sum;
    }
  }
  return sums;
}
