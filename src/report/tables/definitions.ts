import type { DefinitionRow, EffectResult, Results, WithinCell } from "../../study/results.js";
import { effectColumns } from "./comparisons.js";
import { estimateColumns } from "./curves.js";
import { type FlatTable, flatTable, type ParentAndChild, unfold } from "./reshape.js";

type Cell = ParentAndChild<DefinitionRow, WithinCell>;
type Effect = ParentAndChild<DefinitionRow, EffectResult>;

/** What sites mean by the milestone, and the compared groups within each meaning; none where they mean the same. */
export function definitionTables({ definitions }: Results): FlatTable[] {
  if (definitions === null) return [];
  const { rows } = definitions;
  const own = { definition: ({ parent }: { readonly parent: DefinitionRow }) => parent.label };
  return [
    flatTable("definitions", {
      things: rows,
      columns: {
        definition: ({ label }) => label,
        in_the_words_of_the_site: ({ definition }) => definition,
        sites: ({ sites }) => sites.join("|"),
        injuries: ({ n }) => n,
      },
    }),
    flatTable("definition-groups", {
      things: unfold(rows, ({ cells }) => cells),
      columns: {
        ...own,
        group: ({ child }) => child.label,
        injuries: ({ child }) => child.n,
        persons: ({ child }) => child.persons,
        returned_during_follow_up: ({ child }) => child.events,
        ...estimateColumns<Cell>("returned", ({ child }) => child.returned),
        ...estimateColumns<Cell>("half_back_days", ({ child }) => child.half_back),
      },
    }),
    flatTable("definition-effects", {
      things: unfold(rows, ({ effects }) => effects),
      columns: {
        ...own,
        ...Object.fromEntries(
          Object.entries(effectColumns).map(([name, cell]) => [name, ({ child }: Effect) => cell(child)]),
        ),
      },
    }),
  ];
}
