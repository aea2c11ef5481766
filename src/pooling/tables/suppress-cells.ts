import type { TableCell } from "./counted-people.js";

/** Cells that may leave, and those that do not by why. */
export interface Suppressed {
  readonly kept: readonly TableCell[];
  readonly small: readonly TableCell[];
  /** Large enough themselves, but what is left out beside them could be found by subtraction from a total. */
  readonly wouldReveal: readonly TableCell[];
}

const peopleOf = (cells: readonly TableCell[]): number =>
  new Set(cells.flatMap(({ records }) => records.map(({ person }) => person))).size;

/** Cells in the order in which they are given up: the smallest first, then by name, so that the same table gives the same answer. */
const bySize = (a: TableCell, b: TableCell): number =>
  peopleOf([a]) - peopleOf([b]) ||
  (a.group < b.group ? -1 : a.group > b.group ? 1 : (a.stratum ?? "") < (b.stratum ?? "") ? -1 : 1);

/**
 * Leaves out the cells with fewer people than the smallest cell. A site's summary may tell totals, by group and by stratum: where all that is
 * left out of a total comes to fewer people than that, or is a single cell, the next smallest cell of that total is left out as well.
 */
export function suppressCells(cells: readonly TableCell[], smallest: number): Suppressed {
  const filled = cells.filter(({ records }) => records.length > 0);
  const small = filled.filter((cell) => peopleOf([cell]) < smallest);
  const out = new Set(small);
  const totals = [
    filled,
    ...[...new Set(filled.map(({ group }) => group))].map((group) =>
      filled.filter((cell) => cell.group === group),
    ),
    ...[...new Set(filled.map(({ stratum }) => stratum))].map((stratum) =>
      filled.filter((cell) => cell.stratum === stratum),
    ),
  ];
  for (let changed = true; changed; ) {
    changed = false;
    for (const total of totals) {
      const gone = total.filter((cell) => out.has(cell));
      const revealed = gone.length > 0 && (gone.length === 1 || peopleOf(gone) < smallest);
      const next = total.filter((cell) => !out.has(cell)).sort(bySize)[0];
      if (!revealed || next === undefined) continue;
      out.add(next);
      changed = true;
    }
  }
  return {
    kept: filled.filter((cell) => !out.has(cell)),
    small,
    wouldReveal: filled.filter((cell) => out.has(cell) && !small.includes(cell)),
  };
}
