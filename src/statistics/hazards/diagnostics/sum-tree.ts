/** Weights by place, with sums over the first places in logarithmic time. */
export interface SumTree {
  readonly cells: Float64Array;
  total: number;
}

export const sumTree = (places: number): SumTree => ({ cells: new Float64Array(places + 1), total: 0 });

export function addWeight(tree: SumTree, place: number, weight: number): void {
  const { cells } = tree;
  tree.total += weight;
  for (let i = place + 1; i < cells.length; i += i & -i) cells[i]! += weight;
}

/** Sum over the places below one. @source Fenwick 1994, Softw Pract Exp 24:327 */
export function weightBelow({ cells }: SumTree, place: number): number {
  let sum = 0;
  for (let i = place; i > 0; i -= i & -i) sum += cells[i]!;
  return sum;
}
