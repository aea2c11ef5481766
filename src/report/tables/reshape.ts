import type { CsvCell } from "../../schema/csv-text.js";

/** A table on its way to CSV. */
export interface FlatTable {
  readonly name: string;
  readonly columns: readonly string[];
  readonly rows: readonly (readonly CsvCell[])[];
}

/** What a column holds, told from one object; the order of the keys is the order of the columns. */
export type ColumnsOf<T> = Readonly<Record<string, (row: T) => CsvCell>>;

/** A parent and one of its children: a curve and a point of it. */
export interface ParentAndChild<P, C> {
  readonly parent: P;
  readonly child: C;
}

/** Each parent beside each of its children, in the order of both: a curve and its points become a row a point. */
export const unfold = <P, C>(
  parents: readonly P[],
  children: (parent: P) => readonly C[],
): ParentAndChild<P, C>[] =>
  parents.flatMap((parent) => children(parent).map((child) => ({ parent, child })));

/** A table with one row a thing. */
export const flatTable = <T>(
  name: string,
  { things, columns }: { readonly things: readonly T[]; readonly columns: ColumnsOf<T> },
): FlatTable => ({
  name,
  columns: Object.keys(columns),
  rows: things.map((thing) => Object.values(columns).map((cellOf) => cellOf(thing))),
});
