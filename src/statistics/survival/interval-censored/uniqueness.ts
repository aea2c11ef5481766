import type { AlikeRows } from "./alike-rows.js";
import type { Maximum } from "./maximise.js";

/** "undecided": the masses are unique among those on the same innermost intervals; others on the bound may share in them. */
export type Uniqueness = "yes" | "no" | "undecided";

/** A gradient this close to its bound, as a part of it, touches it. */
const touching = 1e-7;

/**
 * Whether masses on the innermost intervals kept are determined by the probabilities of the rows, which are always unique: with the ends of
 * the kept intervals as nodes and every row as an edge from its start to its end, exactly when the graph is connected.
 */
function determined(rows: AlikeRows, keep: (interval: number) => boolean): boolean {
  const node = new Int32Array(rows.count + 1);
  for (let j = 0; j < rows.count; j++) node[j + 1] = (node[j] as number) + Number(keep(j));
  const parent = Int32Array.from({ length: (node[rows.count] as number) + 1 }, (_, k) => k);
  const rootOf = (k: number): number => {
    let at = k;
    while (parent[at] !== at) {
      parent[at] = parent[parent[at] as number] as number;
      at = parent[at] as number;
    }
    return at;
  };
  let parts = parent.length;
  for (let i = 0; i < rows.weight.length; i++) {
    const a = rootOf(node[rows.start[i] as number] as number);
    const b = rootOf(node[rows.end[i] as number] as number);
    if (a === b) continue;
    parent[a] = b;
    parts--;
  }
  return parts === 1;
}

/**
 * Whether the masses are the only ones with this likelihood.
 *
 * @source Gentleman & Geyer 1994, Biometrika 81:618 (rank of the matrix of rows by intervals); for intervals in order that rank is the number of
 *   nodes of the graph less its connected parts
 */
export function uniquenessOf(rows: AlikeRows, { mass, gradient }: Maximum): Uniqueness {
  const holdsMass = (j: number): boolean => (mass[j + 1] as number) > (mass[j] as number);
  if (!determined(rows, holdsMass)) return "no";
  const onBound = (j: number): boolean =>
    holdsMass(j) || (gradient[j] as number) >= rows.total * (1 - touching);
  return determined(rows, onBound) ? "yes" : "undecided";
}
