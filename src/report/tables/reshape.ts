import type { CsvCell } from "../../schema/csv-text.js";

/** A table on its way to CSV. */
export interface FlatTable {
  readonly name: string;
  readonly columns: readonly string[];
  readonly rows: readonly (readonly CsvCell[])[];
}

/** What a column holds, told from one object; the order of the keys is the order of the columns. */
export type ColumnsOf<T> = Readonly<Record<string, (row: T) => CsvCell>>;

type Library = typeof import("arquero");

/** The table library, loaded only when tables are made: it is large. */
export const loadTableLibrary = (): Promise<Library> => import("arquero");

/**
 * One row a child of each parent, keeping the order of both: a curve and its points become a row a point.
 *
 * @param parents with their children as a list
 * @param options name of the table; the children of a parent; the columns, told from parent and child
 */
export function unfold<P extends object, C extends object>(
  library: Library,
  parents: readonly P[],
  options: {
    readonly name: string;
    readonly children: (parent: P) => readonly C[];
    readonly columns: ColumnsOf<{ readonly parent: P; readonly child: C }>;
  },
): FlatTable {
  const { name, children, columns } = options;
  const nested = parents.map((parent) => ({ parent, child: [...children(parent)] }));
  const names = Object.keys(columns);
  if (nested.every(({ child }) => child.length === 0)) return { name, columns: names, rows: [] };
  // a function that closes over ours must be taken as it is, not compiled from its text
  const told = Object.fromEntries(
    Object.entries(columns).map(([column, cellOf]) => [
      column,
      library.escape((row: { parent: P; child: C }) => cellOf(row)),
    ]),
  );
  const flat = library
    .from(nested.filter(({ child }) => child.length > 0))
    .unroll("child")
    .derive(told)
    .select(names);
  const rows = (flat.objects() as Record<string, CsvCell>[]).map((row) =>
    names.map((column) => row[column] ?? null),
  );
  return { name, columns: names, rows };
}

/** A table of things that are flat already. */
export const flatTable = <T>(
  name: string,
  { things, columns }: { things: readonly T[]; columns: ColumnsOf<T> },
): FlatTable => ({
  name,
  columns: Object.keys(columns),
  rows: things.map((thing) => Object.values(columns).map((cellOf) => cellOf(thing))),
});
