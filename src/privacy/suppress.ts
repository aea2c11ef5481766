import { type Combination, equivalenceClasses, keyOf, rareRows } from "./classes.js";

/** A field counted. */
export interface SuppressibleField {
  /** What stands in a cell left out; null where it cannot be left out. */
  readonly blank: string | null;
  /** What a cell left out costs, above 0. */
  readonly cost: number;
  /** Whether it belongs to the person, so that it is left out of all the person's rows. */
  readonly ofPerson: boolean;
}

/** Which cells to leave out, by row and field. */
export type LeftOut = readonly (readonly boolean[])[];

/**
 * Cells to leave out until every combination is shared by at least k people, at as little cost as a greedy search finds:
 * the cheapest set of fields that brings some rare row among enough others is left out of the rows it helps (of sets that
 * cost the same, the one that helps most rows), then again with what is still rare.
 * A blank is a value like any other: a row counts among those alike in all fields, blanks included. What belongs to the
 * person is left out of all its rows, since it would be read in the next. The least cost is not promised; to find it
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
    rows: () => rows.map(({ person }, i) => ({ person, cells: cells[i]! })),
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

/** A set of fields that can be left out together, and what that costs a row. */
interface SetOfFields {
  readonly fields: readonly number[];
  readonly cost: number;
}

/** Every set of fields that can be left out, by cost; those of one cost together. */
function setsOfFields(fields: readonly SuppressibleField[]): readonly (readonly SetOfFields[])[] {
  const sets: SetOfFields[] = [];
  const grow = (set: SetOfFields, from: number): void => {
    for (let field = from; field < fields.length; field++) {
      const { blank, cost } = fields[field]!;
      if (blank === null) continue;
      const larger = { fields: [...set.fields, field], cost: set.cost + cost };
      sets.push(larger);
      grow(larger, field + 1);
    }
  };
  grow({ fields: [], cost: 0 }, 0);
  const byCost = new Map<number, SetOfFields[]>();
  for (const set of sets) byCost.set(set.cost, [...(byCost.get(set.cost) ?? []), set]);
  return [...byCost].sort(([one], [other]) => one - other).map(([, alike]) => alike);
}

/** Leaves out the cheapest set of fields that takes rare rows among enough others, for all rows that it helps. */
function leaveOutBest(
  rare: readonly number[],
  {
    state,
    sets,
    k,
  }: {
    readonly state: State;
    readonly sets: readonly (readonly SetOfFields[])[];
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
  for (const alike of sets) {
    let best: { set: readonly number[]; helped: readonly number[] } = { set: [], helped: [] };
    for (const { fields: set } of alike) {
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
