import { type Combination, equivalenceClasses, keyOf, rareRows } from "./classes.js";

/** A field counted: what stands in a cell left out (null: it cannot be left out), and whether it belongs to the person. */
export interface SuppressibleField {
  readonly blank: string | null;
  readonly ofPerson: boolean;
}

/** Which cells to leave out, by row and field. */
export type LeftOut = readonly (readonly boolean[])[];

/**
 * Cells to leave out until every combination is shared by at least k people, as few as a greedy search finds: first
 * the one field that brings most rare rows among others, then again, two fields where one does not help, and so on.
 * A blank is a value like any other: a row counts among those alike in all fields, blanks included. What belongs to the
 * person is left out of all its rows, since it would be read in the next. The smallest number is not promised; to find it
 * is a problem without a fast solution.
 *
 * @param rows combinations, one text for each field
 * @param options fields in the order in which they are left out when several would help alike
 * @returns for each row and field whether the cell is left out; rows stay rare where fields cannot be left out or fewer
 *   than k people are there
 * @source Samarati 2001, IEEE Trans Knowl Data Eng 13:1010; Meyerson & Williams 2004, Proc ACM PODS 23:223 (hardness)
 */
export function cellsToLeaveOut(
  rows: readonly Combination[],
  { fields, k }: { readonly fields: readonly SuppressibleField[]; readonly k: number },
): LeftOut {
  const state = openState(rows, fields);
  const sets = setsOfFields(fields);
  for (;;) {
    const rare = rareRows(equivalenceClasses(state.rows()), k);
    if (rare.length === 0) break;
    if (!leaveOutBest(rare, { state, sets, k }) && !leaveOutAll(rare, { state, k, fields })) break;
  }
  return state.leftOut;
}

interface State {
  readonly rows: () => readonly Combination[];
  readonly leftOut: boolean[][];
  readonly without: (row: number, set: readonly number[]) => readonly string[];
  /** Leaves cells out; tells whether any of them was still there. */
  readonly leaveOut: (row: number, set: readonly number[]) => boolean;
}

function openState(rows: readonly Combination[], fields: readonly SuppressibleField[]): State {
  const cells = rows.map((row) => [...row.cells]);
  const leftOut = rows.map(() => fields.map(() => false));
  const ofPerson = new Map<string, number[]>();
  for (const [place, { person }] of rows.entries()) {
    const places = ofPerson.get(person);
    if (places === undefined) ofPerson.set(person, [place]);
    else places.push(place);
  }
  const blankOut = (row: number, field: number): boolean => {
    const blank = fields[field]!.blank;
    if (blank === null || cells[row]![field] === blank) return false;
    cells[row]![field] = blank;
    leftOut[row]![field] = true;
    return true;
  };
  return {
    leftOut,
    rows: () => rows.map(({ person }, place) => ({ person, cells: cells[place]! })),
    without: (row, set) =>
      cells[row]!.map((cell, field) => (set.includes(field) ? fields[field]!.blank! : cell)),
    leaveOut: (row, set) => {
      let changed = false;
      for (const field of set) {
        const places = fields[field]!.ofPerson ? ofPerson.get(rows[row]!.person)! : [row];
        for (const place of places) changed = blankOut(place, field) || changed;
      }
      return changed;
    },
  };
}

/** Sets of fields that can be left out, small ones first. */
function setsOfFields(fields: readonly SuppressibleField[]): readonly (readonly (readonly number[])[])[] {
  const able = fields.flatMap(({ blank }, field) => (blank === null ? [] : [field]));
  const bySize: number[][][] = able.map(() => []);
  const grow = (set: readonly number[], from: number): void => {
    for (let place = from; place < able.length; place++) {
      const larger = [...set, able[place]!];
      bySize[larger.length - 1]!.push(larger);
      grow(larger, place + 1);
    }
  };
  grow([], 0);
  return bySize;
}

/** Leaves out the smallest set of fields that takes rare rows among enough others, for as many rows as it does. */
function leaveOutBest(
  rare: readonly number[],
  {
    state,
    sets,
    k,
  }: {
    readonly state: State;
    readonly sets: readonly (readonly (readonly number[])[])[];
    readonly k: number;
  },
): boolean {
  const rows = state.rows();
  const isRare = new Set(rare);
  const common = new Map<string, Set<string>>();
  for (const [place, { person, cells }] of rows.entries()) {
    if (isRare.has(place)) continue;
    const key = keyOf(cells);
    common.set(key, (common.get(key) ?? new Set()).add(person));
  }
  for (const ofSize of sets) {
    let best: { set: readonly number[]; helped: readonly number[] } = { set: [], helped: [] };
    for (const set of ofSize) {
      const helped = rowsHelped(rare, { set, state, rows, common, k });
      if (helped.length > best.helped.length) best = { set, helped };
    }
    if (best.helped.length === 0) continue;
    for (const row of best.helped) state.leaveOut(row, best.set);
    return true;
  }
  return false;
}

function rowsHelped(
  rare: readonly number[],
  {
    set,
    state,
    rows,
    common,
    k,
  }: {
    readonly set: readonly number[];
    readonly state: State;
    readonly rows: readonly Combination[];
    readonly common: ReadonlyMap<string, ReadonlySet<string>>;
    readonly k: number;
  },
): readonly number[] {
  const groups = new Map<string, number[]>();
  for (const row of rare) {
    const key = keyOf(state.without(row, set));
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [row]);
    else group.push(row);
  }
  return [...groups].flatMap(([key, group]) => {
    const people = new Set(common.get(key) ?? []);
    for (const row of group) people.add(rows[row]!.person);
    return people.size >= k ? group : [];
  });
}

/** Nothing smaller helps: everything that can be left out of the rare rows, else of the smallest class they could join. */
function leaveOutAll(
  rare: readonly number[],
  {
    state,
    k,
    fields,
  }: { readonly state: State; readonly k: number; readonly fields: readonly SuppressibleField[] },
): boolean {
  const all = fields.map((_, field) => field);
  if (rare.filter((row) => state.leaveOut(row, all)).length > 0) return true;
  const rows = state.rows();
  const staying = (cells: readonly string[]) =>
    keyOf(cells.filter((_, field) => fields[field]!.blank === null));
  const wanted = new Set(rare.map((row) => staying(rows[row]!.cells)));
  const others = equivalenceClasses(rows)
    .filter(({ people, cells }) => people >= k && wanted.has(staying(cells)))
    .sort((one, other) => one.people - other.people);
  return others.some((each) => each.rows.filter((row) => state.leaveOut(row, all)).length > 0);
}
