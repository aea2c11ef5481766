import type { Estimand, Results } from "../../study/results.js";
import { estimandWords } from "../../words/estimands.js";
import { type FlatTable, flatTable } from "./reshape.js";

/** What each figure is a figure of; the tables name it by its id. */
export const estimandTables = (results: Results): FlatTable[] => [
  flatTable("estimands", {
    things: results.estimands,
    columns: {
      id: ({ id }: Estimand) => id,
      figure: ({ figure }: Estimand) => figure,
      people: ({ people }: Estimand) => people,
      groups: ({ groups }: Estimand) => groups.map(({ label, n }) => `${label}=${n}`).join("|"),
      by: ({ by }: Estimand) => by,
      counted_from: ({ counted_from }: Estimand) => counted_from,
      at_risk_from: ({ at_risk_from }: Estimand) => at_risk_from,
      competing_ends: ({ competing_ends }: Estimand) => competing_ends.join("|"),
      competing_ends_are: ({ competing_ends_are }: Estimand) => competing_ends_are,
      lost_are: ({ lost_are }: Estimand) => lost_are,
      returns: ({ returns }: Estimand) => returns,
      adjusted_for: ({ adjusted_for }: Estimand) => adjusted_for.join("|"),
      strata_used: ({ strata_used }: Estimand) => strata_used.join("|"),
      in_words: (one: Estimand) => estimandWords(one, results),
    },
  }),
];
