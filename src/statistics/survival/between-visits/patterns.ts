import type { Visits } from "./columns.js";

/** Values of the covariates and the rows that have them. */
export interface Pattern {
  readonly values: readonly number[];
  /** Summed weight over the total. */
  readonly share: number;
  /** Place of the cell of these rows, where rows are parted in cells; else 0. */
  readonly cell: number;
}

/** The patterns of the rows, and which of them each row has. @param cells place of each row's cell; left out: all rows are one */
export function patternsOf(
  visits: Visits,
  cells?: ArrayLike<number>,
): { readonly patterns: readonly Pattern[]; readonly of: Int32Array } {
  const places = new Map<string, number>();
  const first: number[] = [];
  const weights: number[] = [];
  const of = new Int32Array(visits.n);
  const valuesOf = (row: number): number[] => visits.covariates.columns.map((column) => column[row]!);
  const cellOf = (row: number): number => cells?.[row] ?? 0;
  for (let row = 0; row < visits.n; row++) {
    const key = [cellOf(row), ...valuesOf(row)].join(" ");
    const place = places.get(key) ?? first.push(row) - 1;
    places.set(key, place);
    of[row] = place;
    weights[place] = (weights[place] ?? 0) + visits.weights[row]!;
  }
  const patterns = first.map((row, p) => ({
    values: valuesOf(row),
    share: weights[p]! / visits.total,
    cell: cellOf(row),
  }));
  return { patterns, of };
}
