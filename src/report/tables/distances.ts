import type { Results } from "../../study/results.js";
import { estimateColumns } from "./curves.js";
import { type ColumnsOf, type FlatTable, flatTable } from "./reshape.js";

type Distances = NonNullable<Results["distances"]>;

/** Distances by group, pair by pair (without ids or dates), and by threshold; none without imaging. */
export function distanceTables({ distances }: Results): FlatTable[] {
  if (distances === null) return [];
  return [
    flatTable("distances", { things: distances.groups, columns: groupColumns }),
    flatTable("distance-pairs", { things: distances.pairs, columns: pairColumns }),
    flatTable("distance-thresholds", { things: distances.thresholds, columns: thresholdColumns }),
  ];
}

const groupColumns: ColumnsOf<Distances["groups"][number]> = {
  group: ({ label }) => label,
  injuries: ({ n }) => n,
  before_mean_mm: ({ before_mean }) => before_mean,
  before_standard_deviation_mm: ({ before_standard_deviation }) => before_standard_deviation,
  after_mean_mm: ({ after_mean }) => after_mean,
  after_standard_deviation_mm: ({ after_standard_deviation }) => after_standard_deviation,
  ...estimateColumns<Distances["groups"][number]>("change_mm", ({ change }) => change),
  median_days_between: ({ median_days_between }) => median_days_between,
};

const pairColumns: ColumnsOf<Distances["pairs"][number]> = {
  group: ({ group }) => group,
  before_mm: ({ before_mm }) => before_mm,
  after_mm: ({ after_mm }) => after_mm,
};

const thresholdColumns: ColumnsOf<Distances["thresholds"][number]> = {
  threshold_mm: ({ threshold_mm }) => threshold_mm,
  readings: ({ n }) => n,
  above: ({ above }) => above,
  ...estimateColumns<Distances["thresholds"][number]>("share_above", ({ share_above }) => share_above),
};
