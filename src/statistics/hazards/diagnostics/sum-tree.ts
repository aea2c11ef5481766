/** Weights by place, with sums over the first places in logarithmic time. */
export interface SumTree {
  readonly cells: Float64Array;
  total: number;
}

export const sumTree = (places: number): SumTree => ({ cells: new Float64Array(places + 1), total: 0 });

export function addWeight(tree: SumTree, place: number, weight: number): void {
  const { cells } = tree;
  tree.total += weight;
  for (let at = place + 1; at < cells.length; at += at & -at) cells[at]! += weight;
}

/** Sum over the places below one. @source Fenwick 1994, Softw Pract Exp 24:327 */
export function weightBelow({ cells }: SumTree, place: number): number {
  let sum = 0;
  for (let at = place; at > 0; at -= at & -at) sum += cells[at]!;
  return sum;
}
