import type { TableCell } from "./counted-people.js";

/** Cells that may leave, and those that do not by why. */
export interface Suppressed {
  readonly kept: readonly TableCell[];
  readonly small: readonly TableCell[];
  /** Large enough themselves, but what is left out beside them could be found by subtraction from a total. */
  readonly wouldReveal: readonly TableCell[];
}

interface Asked {
  /** Fewest people behind a count that leaves. */
  readonly smallest: number;
  /** Groups of which something else is told: the person of each injury, by the injury's id. */
  readonly told: readonly ReadonlyMap<string, string>[];
}

/** People who are not told of by a total, and cells that can be subtracted from it. */
interface Total {
  readonly cells: readonly TableCell[];
  /** People with an injury in it that is in none of these cells. */
  readonly outside: ReadonlySet<string>;
}

const peopleOf = (cells: readonly TableCell[]): Set<string> =>
  new Set(cells.flatMap(({ records }) => records.map(({ person }) => person)));

/** Cells in the order in which they are given up: the smallest first, then by name, so that the same table gives the same answer. */
const bySize = (a: TableCell, b: TableCell): number =>
  peopleOf([a]).size - peopleOf([b]).size ||
  (a.group < b.group ? -1 : a.group > b.group ? 1 : (a.stratum ?? "") < (b.stratum ?? "") ? -1 : 1);

/** With so many smallest cells of people a cell can have two counts that are not small; with fewer, all would be known to have come to the same. */
const countsInCell = 2;

/**
 * Leaves out the cells of too few people. Totals are told beside the table, or follow from it, by group and by stratum: where all that is left
 * out of a total comes to too few people, or is a single cell, the next smallest cell of that total is left out as well.
 */
export function suppressCells(cells: readonly TableCell[], { smallest, told }: Asked): Suppressed {
  const fewest = smallest > 1 ? countsInCell * smallest : 1;
  const filled = cells.filter(({ records }) => records.length > 0);
  const small = filled.filter((cell) => peopleOf([cell]).size < fewest);
  const out = new Set(small);
  const totals = [...ownTotals(filled), ...told.map((members) => totalOf(members, filled))];
  for (let changed = true; changed; ) {
    changed = false;
    for (const { cells: within, outside } of totals) {
      const gone = within.filter((cell) => out.has(cell));
      const hidden = new Set([...peopleOf(gone), ...outside]).size;
      const isSingle = gone.length === 1 && outside.size === 0;
      const revealed = hidden > 0 && (hidden < fewest || isSingle);
      const next = within.filter((cell) => !out.has(cell)).sort(bySize)[0];
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

/** All cells, those of each group, and those of each stratum. */
function ownTotals(filled: readonly TableCell[]): readonly Total[] {
  const by = (key: "group" | "stratum") =>
    [...new Set(filled.map((cell) => cell[key]))].map((value) =>
      filled.filter((cell) => cell[key] === value),
    );
  return [filled, ...by("group"), ...by("stratum")].map((cells) => ({ cells, outside: new Set() }));
}

/** A group that is told of, less the cells that lie in it as a whole. */
function totalOf(members: ReadonlyMap<string, string>, filled: readonly TableCell[]): Total {
  const cells = filled.filter(({ records }) => records.every(({ injury }) => members.has(injury)));
  const inside = new Set(cells.flatMap(({ records }) => records.map(({ injury }) => injury)));
  const outside = [...members].filter(([injury]) => !inside.has(injury)).map(([, person]) => person);
  return { cells, outside: new Set(outside) };
}
