import type { OutcomeRecord } from "../../cohort/record.js";
import { type TableEnd, tableEnds } from "./risk-sets.js";

/** Records that share group and stratum. */
export interface TableCell {
  readonly group: string;
  readonly stratum: string | null;
  readonly records: readonly OutcomeRecord[];
}

export type Kind = "entered" | "censored" | TableEnd;
export const kinds: readonly Kind[] = ["entered", "censored", ...tableEnds];

/** The people behind the counts of one cell in one narrow bin, one entry an injury. */
export type PeopleByKind = Partial<Record<Kind, readonly string[]>>;

/** The ends of narrow bins that hold every record, from the first on. */
export function narrowEnds(cells: readonly TableCell[], binDays: number): number[] {
  let last = 0;
  for (const { records } of cells) for (const { time } of records) last = Math.max(last, time);
  return Array.from({ length: Math.max(1, Math.ceil(last / binDays)) }, (_, i) => binDays * (i + 1));
}

/** People by kind for each narrow bin of a cell: those who left in it, and those who came while it ran; those at risk from the start came in the first. */
export function peopleByBin(cell: TableCell, ends: readonly number[]): PeopleByKind[] {
  const bins = ends.map((): Record<string, string[]> => ({}));
  const width = ends[0] ?? 1;
  const note = (bin: number, kind: Kind, person: string): void => {
    const own = bins[bin]!;
    const people = own[kind] ?? [];
    own[kind] = people;
    people.push(person);
  };
  for (const { time, entry, end, person } of cell.records) {
    note(Math.max(0, Math.ceil(time / width) - 1), end === "censored" ? "censored" : end, person);
    note(Math.max(0, Math.floor(entry / width)), "entered", person);
  }
  return bins;
}

/** How the kinds of ends are told once some of them are put together. */
export type Folding = (kind: Kind) => Kind;

/** Counts of neighbouring bins taken together, kept up while more bins join. */
export interface GrowingBin {
  /** Takes one more bin in. */
  readonly add: (bin: PeopleByKind) => void;
  /** Whether each count is of nobody or of enough people. */
  readonly isEnough: () => boolean;
}

export function growingBin({
  smallest,
  fold,
}: {
  readonly smallest: number;
  readonly fold: Folding;
}): GrowingBin {
  const people = new Map<Kind, Set<string>>();
  return {
    add: (bin) => {
      for (const kind of kinds)
        for (const person of bin[kind] ?? []) {
          const into = fold(kind);
          const here = people.get(into) ?? new Set<string>();
          people.set(into, here.add(person));
        }
    },
    isEnough: () => [...people.values()].every(({ size }) => size >= smallest),
  };
}
