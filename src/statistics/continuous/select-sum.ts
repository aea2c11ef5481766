/** All sums x_i + y_j of two ascending lists; "half": one list with itself, each pair i <= j once. */
export interface Sums {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly pairs: "all" | "half";
}

/** How many sums are at most a value, the greatest of them, and the least of the others. */
interface Split {
  readonly atMost: number;
  readonly below: number;
  readonly above: number;
}

/** One walk along the edge between sums at most the value and sums above it: linear in the lists. */
function splitAt({ x, y, pairs }: Sums, value: number): Split {
  let atMost = 0;
  let onDiagonal = 0;
  let below = Number.NEGATIVE_INFINITY;
  let above = Number.POSITIVE_INFINITY;
  let j = y.length;
  for (let i = 0; i < x.length; i++) {
    const own = x[i]!;
    while (j > 0 && own + y[j - 1]! > value) j--;
    if (j > 0) below = Math.max(below, own + y[j - 1]!);
    if (j < y.length) above = Math.min(above, own + y[j]!);
    atMost += j;
    if (pairs === "half" && own + own <= value) onDiagonal++;
  }
  return { atMost: pairs === "half" ? (atMost + onDiagonal) / 2 : atMost, below, above };
}

export const numberOfSums = ({ x, y, pairs }: Sums): number =>
  pairs === "half" ? (x.length * (x.length + 1)) / 2 : x.length * y.length;

/**
 * The sum of a given rank (from 1) among all sums, without making them: the range is halved, its ends always moved to sums that exist.
 */
export function sumOfRank(sums: Sums, rank: number): number {
  const { x, y } = sums;
  let low = x[0]! + y[0]!;
  let high = x[x.length - 1]! + y[y.length - 1]!;
  while (low < high) {
    const middle = low / 2 + high / 2;
    const { atMost, below, above } = splitAt(sums, Math.min(Math.max(middle, low), high));
    if (atMost >= rank) {
      // nothing between the middle and the value found: the range has come down to two neighbours
      if (below === high) return rank <= splitAt(sums, low).atMost ? low : high;
      high = below;
    } else low = above;
  }
  return low;
}

/** Middle sum, or the mean of the two in the middle. */
export function medianOfSums(sums: Sums): number {
  const count = numberOfSums(sums);
  const low = sumOfRank(sums, Math.floor((count + 1) / 2));
  return count % 2 === 1 ? low : (low + sumOfRank(sums, count / 2 + 1)) / 2;
}
