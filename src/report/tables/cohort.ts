import type { CohortCell, CohortRow, Results } from "../../study/results.js";
import { type ColumnsOf, type FlatTable, flatTable, type ParentAndChild, unfold } from "./reshape.js";

interface GroupCell {
  readonly group: string;
  readonly cell: CohortCell;
  readonly difference: number | null;
}

const columns: ColumnsOf<ParentAndChild<CohortRow, GroupCell>> = {
  variable: ({ parent }) => parent.variable,
  term: ({ parent }) => parent.term,
  unit: ({ parent }) => parent.unit,
  group: ({ child }) => child.group,
  recorded: ({ child }) => child.cell.n,
  missing: ({ child }) => child.cell.missing,
  count: ({ child }) => child.cell.count,
  share: ({ child }) => child.cell.share,
  mean: ({ child }) => child.cell.mean,
  standard_deviation: ({ child }) => child.cell.standard_deviation,
  median: ({ child }) => child.cell.median,
  lower_quartile: ({ child }) => child.cell.lower_quartile,
  upper_quartile: ({ child }) => child.cell.upper_quartile,
  standardised_difference: ({ child }) => child.difference,
};

/** The cohort table with one row a variable, term and group. */
export const cohortTable = ({ cohort }: Results): FlatTable =>
  describedTable({ name: "cohort", groups: cohort.groups, rows: cohort.rows });

/** Groups side by side, with one row a variable, term and group. */
export const describedTable = ({
  name,
  groups,
  rows,
}: { readonly name: string } & Pick<Results["cohort"], "groups" | "rows">): FlatTable =>
  flatTable(name, {
    things: unfold(rows, (row): GroupCell[] => [
      { group: "all", cell: row.overall, difference: null },
      ...row.groups.map((cell, i) => ({
        group: groups[i]?.label ?? "",
        cell,
        difference: row.standardised_differences[i] ?? null,
      })),
    ]),
    columns,
  });
