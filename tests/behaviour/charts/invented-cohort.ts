import type { CohortCell, Results } from "../../../src/study/results.js";

/** SYNTHETIC distances and cohort table, invented for the tests of the drawings; their numbers stand for nothing. */
type Distances = NonNullable<Results["distances"]>;

export function inventedDistances(groups: readonly { label: string; n: number; drop: number }[]): Distances {
  const pairs = groups.flatMap(({ label, n, drop }) =>
    Array.from({ length: n }, (_, index) => {
      const before_mm = 2 + ((index * 7) % 11) * 0.25;
      return {
        group: label,
        before_mm,
        after_mm: Math.max(0.4, before_mm - drop * (0.4 + ((index * 5) % 7) * 0.2)),
      };
    }),
  );
  const mean = (values: readonly number[]) =>
    values.length === 0 ? null : values.reduce((sum, value) => sum + value, 0) / values.length;
  return {
    pulley: "A2",
    position: "loaded",
    threshold_mm: 2,
    injuries_with_baseline: pairs.length + 9,
    injuries_read_late: 0,
    injuries_with_both: pairs.length,
    groups: groups.map(({ label, n, drop }) => {
      const own = pairs.filter((pair) => pair.group === label);
      const reason = n === 0 ? "no-rows" : n === 1 ? "too-few-rows" : null;
      return {
        label,
        n,
        before_mean: mean(own.map((pair) => pair.before_mm)),
        before_standard_deviation: null,
        after_mean: mean(own.map((pair) => pair.after_mm)),
        after_standard_deviation: null,
        change: {
          value: n > 0 ? -drop : null,
          lower: n > 1 ? -drop - 0.4 : null,
          upper: n > 1 ? 0.4 - drop : null,
          reason,
        },
        median_days_between: 84,
      };
    }),
    pairs,
    thresholds: [],
  };
}

const cell: CohortCell = {
  n: 20,
  missing: 0,
  count: null,
  share: null,
  mean: null,
  standard_deviation: null,
  median: null,
  lower_quartile: null,
  upper_quartile: null,
};

export function inventedCohort(
  labels: readonly string[],
  variables: Readonly<Record<string, readonly (number | null)[]>>,
): Results["cohort"] {
  return {
    by: "first_treatment",
    reference: labels[1] ?? "tape",
    groups: labels.map((label, index) => ({ label, n: 64 - 3 * index })),
    overall: 139,
    rows: Object.entries(variables).map(([variable, standardised_differences]) => ({
      variable,
      term: null,
      unit: null,
      overall: cell,
      groups: labels.map(() => cell),
      standardised_differences: [...standardised_differences],
    })),
  };
}

export const threeGroupsCompared = inventedCohort(["ring", "tape", "surgery"], {
  grade: [0.42, null, 0.88],
  sex: [-0.07, null, 0.12],
  age_at_injury: [0.03, null, -0.21],
  years_climbing: [0.15, null, 0.05],
  delay_days: [-0.31, null, -0.02],
  distance_loaded_first: [null, null, null],
});
