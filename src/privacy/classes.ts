/** A row as far as its combination is concerned. */
export interface Combination {
  readonly person: string;
  /** One text for each field counted. */
  readonly cells: readonly string[];
}

/** Rows that are alike in every field counted. */
export interface EquivalenceClass {
  readonly cells: readonly string[];
  /** Places of its rows in the list. */
  readonly rows: readonly number[];
  /** Different people among them: five rows of one person hide nobody. */
  readonly people: number;
}

/** The rows by combination, in the order in which the combinations are first met. */
export function equivalenceClasses(rows: readonly Combination[]): readonly EquivalenceClass[] {
  const classes = new Map<string, { cells: readonly string[]; rows: number[]; persons: Set<string> }>();
  for (const [place, { person, cells }] of rows.entries()) {
    const key = keyOf(cells);
    const known = classes.get(key) ?? { cells, rows: [], persons: new Set<string>() };
    known.rows.push(place);
    known.persons.add(person);
    classes.set(key, known);
  }
  return [...classes.values()].map(({ cells, rows: places, persons }) => ({
    cells,
    rows: places,
    people: persons.size,
  }));
}

/** A combination as one text. */
export const keyOf = (cells: readonly string[]): string => JSON.stringify(cells);

/** Places of the rows whose combination fewer than k people share, ascending. */
export const rareRows = (classes: readonly EquivalenceClass[], k: number): readonly number[] =>
  classes
    .filter(({ people }) => people < k)
    .flatMap(({ rows }) => rows)
    .sort((one, other) => one - other);

/** How many classes, people and rows there are of each size. */
export interface ClassSizes {
  /** People in a class: from, to; to is null for the open end. */
  readonly from: number;
  readonly to: number | null;
  readonly classes: number;
  readonly rows: number;
}

/** Classes by size: each size below k by itself, then k to 2k - 1, and 2k and more. */
export function classSizes(classes: readonly EquivalenceClass[], k: number): readonly ClassSizes[] {
  const steps = [
    ...Array.from({ length: k - 1 }, (_, i) => [i + 1, i + 1] as const),
    [k, 2 * k - 1] as const,
  ];
  return [...steps, [2 * k, null] as const].map(([from, to]) => {
    const within = classes.filter(({ people }) => people >= from && (to === null || people <= to));
    return { from, to, classes: within.length, rows: within.reduce((sum, { rows }) => sum + rows.length, 0) };
  });
}
