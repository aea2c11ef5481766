import type { DifferenceOverTime, Results } from "../../study/results.js";
import { type FlatTable, flatTable, type ParentAndChild, unfold } from "./reshape.js";

type Point = ParentAndChild<DifferenceOverTime, DifferenceOverTime["points"][number]>;

/** Differences of the shares back over time: their bands, and every day of them. */
export const differenceTables = ({ differences_over_time: differences }: Results): FlatTable[] => [
  flatTable("differences-over-time", {
    things: differences,
    columns: {
      compared: ({ compared }) => compared,
      reference: ({ reference }) => reference,
      adjusted_for: ({ adjusted_for }) => adjusted_for.join("; "),
      strata_used: ({ strata_used }) => strata_used.join("; "),
      n_compared: ({ n }) => n.compared,
      n_reference: ({ n }) => n.reference,
      last_day: ({ last_day }) => last_day,
      critical_value: ({ critical_value }) => critical_value,
      p: ({ p }) => p,
      draws: ({ draws }) => draws,
      reason: ({ reason }) => reason,
    },
  }),
  flatTable("difference-points", {
    things: unfold(differences, ({ points }) => points),
    columns: {
      compared: ({ parent }: Point) => parent.compared,
      reference: ({ parent }: Point) => parent.reference,
      adjusted_for: ({ parent }: Point) => parent.adjusted_for.join("; "),
      day: ({ child }: Point) => child.day,
      difference: ({ child }: Point) => child.difference,
      lower: ({ child }: Point) => child.lower,
      upper: ({ child }: Point) => child.upper,
      band_lower: ({ child }: Point) => child.band_lower,
      band_upper: ({ child }: Point) => child.band_upper,
    },
  }),
];
