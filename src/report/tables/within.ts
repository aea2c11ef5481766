import type { Results, WithinRow } from "../../study/results.js";
import { estimateColumns } from "./curves.js";
import { type ColumnsOf, type FlatTable, flatTable, type ParentAndChild, unfold } from "./reshape.js";

type CellOfRow = WithinRow["cells"][number];
type Cell = ParentAndChild<WithinRow, CellOfRow>;
type Landmark = ParentAndChild<Cell, CellOfRow["landmarks"][number]>;
type Difference = ParentAndChild<WithinRow, WithinRow["differences"][number]>;

/** The compared groups within each value of a field, and their differences. */
export function withinTables({ within }: Results): FlatTable[] {
  const rows = within?.rows ?? [];
  const estimand = within === null ? null : `within:${within.field}`;
  const place = {
    field: () => within?.field ?? null,
    value: ({ parent }: { readonly parent: WithinRow }) => parent.value,
    day: () => within?.day ?? null,
  };
  const cells: ColumnsOf<Cell> = {
    ...place,
    group: ({ child }) => child.label,
    injuries: ({ child }) => child.n,
    persons: ({ child }) => child.persons,
    returned_during_follow_up: ({ child }) => child.events,
    ...estimateColumns<Cell>("returned", ({ child }) => child.returned),
    ...estimateColumns<Cell>("half_back_days", ({ child }) => child.half_back),
    estimand: () => estimand,
  };
  const landmarks: ColumnsOf<Landmark> = {
    field: () => within?.field ?? null,
    value: ({ parent: { parent } }) => parent.value,
    group: ({ parent: { child } }) => child.label,
    injuries: ({ parent: { child } }) => child.n,
    week: ({ child }) => child.week,
    day: ({ child }) => child.day,
    ...estimateColumns<Landmark>("returned", ({ child }) => child.returned),
    estimand: () => estimand,
  };
  const differences: ColumnsOf<Difference> = {
    ...place,
    compared: ({ child }) => child.compared,
    reference: ({ child }) => child.reference,
    ...estimateColumns<Difference>("returned_difference", ({ child }) => child.returned),
    p: ({ child }) => child.p,
    estimand: () => estimand,
  };
  const unfolded = unfold(rows, (row) => row.cells);
  return [
    flatTable("within", { things: unfolded, columns: cells }),
    flatTable("within-landmarks", {
      things: unfold(unfolded, ({ child }) => child.landmarks),
      columns: landmarks,
    }),
    flatTable("within-differences", { things: unfold(rows, (row) => row.differences), columns: differences }),
  ];
}
