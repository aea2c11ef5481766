import {
  type Folding,
  growingBin,
  narrowEnds,
  type PeopleByKind,
  peopleByBin,
  type TableCell,
} from "./counted-people.js";
import { type EndsTold, endsTold } from "./risk-sets.js";

/** Bins in which no count of any cell is small, and how far the ends are told in them. */
export interface Bins {
  readonly ends: readonly number[];
  readonly told: EndsTold;
}

/** Fewer bins with a return than this say no more than a share at one time. */
export const fewestBins = 3;

const foldings: Readonly<Record<EndsTold, Folding>> = {
  each: (kind) => kind,
  as_one: (kind) =>
    kind === "entered" || kind === "censored" || kind === "milestone" ? kind : "another_end",
  as_ends_of_follow_up: (kind) => (kind === "entered" || kind === "milestone" ? kind : "censored"),
};

export const foldingOf = (told: EndsTold): Folding => foldings[told];

interface Asked {
  readonly binDays: number;
  /** Fewest people behind a count that leaves. */
  readonly smallest: number;
  /** Whether the ends after which the return can no longer be seen may be told as one. */
  readonly mayTellAsOne: boolean;
}

/** The narrow bins as they are, where no count in them is small; null where one is. */
export function asAsked(
  cells: readonly TableCell[],
  { binDays, smallest }: Omit<Asked, "mayTellAsOne">,
): Bins | null {
  const ends = narrowEnds(cells, binDays);
  const enough = cells.every((cell) =>
    peopleByBin(cell, ends).every((bin) => {
      const alone = growingBin({ smallest, fold: foldings.each });
      alone.add(bin);
      return alone.isEnough();
    }),
  );
  return enough ? { ends, told: "each" } : null;
}

/**
 * Narrow bins put together so that every count in them is of nobody or of enough people, in the way that leaves the most bins with a return;
 * the ends told apart as far as at least a few such bins remain. Null where even then too few do.
 */
function coarseEnough(cells: readonly TableCell[], { binDays, smallest, mayTellAsOne }: Asked): Bins | null {
  const narrow = narrowEnds(cells, binDays);
  const people = cells.map((cell) => peopleByBin(cell, narrow));
  for (const told of endsTold) {
    if (told === "as_one" && !mayTellAsOne) continue;
    const found = mostBins(people, { smallest, fold: foldings[told] });
    if (found !== null && found.withReturns >= fewestBins)
      return { ends: found.last.map((i) => narrow[i]!), told };
  }
  return null;
}

/** Cells that leave, and their bins. */
export interface BinnedCells {
  readonly cells: readonly TableCell[];
  readonly bins: Bins;
}

/**
 * Wider bins for all cells; where there are none, for as many strata as have them in common, the largest strata first. Null where no stratum
 * has them by itself.
 */
export function coarseEnoughFor(cells: readonly TableCell[], asked: Asked): BinnedCells | null {
  const all = coarseEnough(cells, asked);
  if (all !== null) return { cells, bins: all };
  const sizeOf = (stratum: string | null) =>
    cells.reduce((sum, cell) => sum + (cell.stratum === stratum ? cell.records.length : 0), 0);
  const strata = [...new Set(cells.map(({ stratum }) => stratum))].sort((a, b) => sizeOf(b) - sizeOf(a));
  let found: (BinnedCells & { readonly strata: readonly (string | null)[] }) | null = null;
  for (const stratum of strata) {
    const tried: readonly (string | null)[] = [...(found?.strata ?? []), stratum];
    const own = cells.filter((cell) => tried.includes(cell.stratum));
    const bins = coarseEnough(own, asked);
    if (bins !== null) found = { cells: own, bins, strata: tried };
  }
  return found && { cells: found.cells, bins: found.bins };
}

/** Bins up to some narrow bin: how many of them hold a return, and the narrow bin before the last of them. */
interface Best {
  readonly withReturns: number;
  readonly from: number;
}

/**
 * The division with the most bins that hold a return, by the best one up to each narrow bin; of equal ones that with the widest last bin, since
 * the early weeks are those that matter. Null where there is none.
 *
 * @param people of each cell, by narrow bin
 * @returns the last narrow bin of each
 */
function mostBins(
  people: readonly (readonly PeopleByKind[])[],
  rule: { readonly smallest: number; readonly fold: Folding },
): { readonly withReturns: number; readonly last: readonly number[] } | null {
  const count = people[0]?.length ?? 0;
  const best: (Best | null)[] = [{ withReturns: 0, from: 0 }, ...new Array<null>(count).fill(null)];
  for (let from = 0; from < count; from++) {
    const before = best[from];
    if (!before) continue;
    const bins = people.map(() => growingBin(rule));
    let returns = 0;
    for (let to = from; to < count; to++) {
      people.forEach((ofCell, cell) => {
        bins[cell]!.add(ofCell[to]!);
        returns += ofCell[to]!.milestone?.length ?? 0;
      });
      if (!bins.every((bin) => bin.isEnough())) continue;
      const withReturns = before.withReturns + Number(returns > 0);
      if (withReturns > (best[to + 1]?.withReturns ?? -1)) best[to + 1] = { withReturns, from };
    }
  }
  const end = best[count];
  if (!end) return null;
  const last: number[] = [];
  for (let at = count; at > 0; at = best[at]!.from) last.unshift(at - 1);
  return { withReturns: end.withReturns, last };
}
