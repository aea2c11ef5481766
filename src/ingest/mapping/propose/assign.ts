/**
 * Gives each row at most one column and each column at most one row so that the total of the scores is largest.
 * A score of 0 or less is never given. Of equal totals the one found first is taken, always the same.
 *
 * @param scores by row, then by column; all rows of one length
 * @returns by row the place of its column, or null
 * @source Kuhn 1955, Naval Research Logistics Quarterly 2:83; with potentials, O(rows^2 columns)
 * @example
 * // 16 in all, where the best single score would leave 10
 * assign([[9, 8], [8, 1]]) // => [1, 0]
 */
// biome-ignore lint/complexity/noExcessiveCognitiveComplexity: one published algorithm, whose steps share all their arrays
export function assign(scores: readonly (readonly number[])[]): readonly (number | null)[] {
  const rows = scores.length;
  const real = scores[0]?.length ?? 0;
  // a further column for each row, of score 0, is where it goes when it gets none
  const columns = real + rows;
  const cost = (row: number, column: number): number =>
    column < real ? -Math.max(0, scores[row]![column]!) : 0;
  const rowPotential = new Float64Array(rows + 1);
  const columnPotential = new Float64Array(columns + 1);
  const rowOf = new Int32Array(columns + 1);
  const cameFrom = new Int32Array(columns + 1);
  for (let row = 1; row <= rows; row++) {
    rowOf[0] = row;
    const slack = new Float64Array(columns + 1).fill(Number.POSITIVE_INFINITY);
    const visited = new Uint8Array(columns + 1);
    let column = 0;
    do {
      visited[column] = 1;
      const current = rowOf[column]!;
      let smallest = Number.POSITIVE_INFINITY;
      let next = 0;
      for (let other = 1; other <= columns; other++) {
        if (visited[other]) continue;
        const reduced = cost(current - 1, other - 1) - rowPotential[current]! - columnPotential[other]!;
        if (reduced < slack[other]!) {
          slack[other] = reduced;
          cameFrom[other] = column;
        }
        if (slack[other]! < smallest) {
          smallest = slack[other]!;
          next = other;
        }
      }
      for (let other = 0; other <= columns; other++) {
        if (visited[other]) {
          rowPotential[rowOf[other]!]! += smallest;
          columnPotential[other]! -= smallest;
        } else slack[other]! -= smallest;
      }
      column = next;
    } while (rowOf[column] !== 0);
    while (column !== 0) {
      const before = cameFrom[column]!;
      rowOf[column] = rowOf[before]!;
      column = before;
    }
  }
  const given: (number | null)[] = Array.from({ length: rows }, () => null);
  for (let column = 1; column <= real; column++) {
    const row = rowOf[column]! - 1;
    if (row >= 0 && scores[row]![column - 1]! > 0) given[row] = column - 1;
  }
  return given;
}
