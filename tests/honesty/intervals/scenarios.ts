import { completeScenario, type Scenario, type ScenarioAsWritten } from "../../../src/synthetic/index.js";

/** What a setting changes of the scenario; the rest is the toolkit's default, with dates as clinics write them. */
export interface Changes {
  readonly dates?: "exact" | "as written";
  readonly persons?: ScenarioAsWritten["persons"];
  readonly injury?: ScenarioAsWritten["injury"];
  readonly treatment?: ScenarioAsWritten["treatment"];
  readonly return?: ScenarioAsWritten["return"];
  readonly sites?: readonly string[];
}

const grades = ["1", "2", "3", "4a", "4b"] as const;
export const everyGrade = <T>(value: T) =>
  Object.fromEntries(grades.map((grade) => [grade, value])) as Record<(typeof grades)[number], T>;

/** One grade, one pulley, so that nothing is confounded. */
export const oneGrade: ScenarioAsWritten["injury"] = {
  grade_mix: { ...everyGrade(0), "2": 1 },
  pulleys: everyGrade([{ pulleys: ["A2" as const], extents: ["partial" as const], weight: 1 }]),
};

/** A first treatment with these weights, whatever the grade. */
export const treatedBy = (weights: { readonly tape: number; readonly ring: number }) => ({
  first: everyGrade({ ...weights, surgery: 0, none: 0 }),
});

/** Every grade and treatment alike: nothing that a test could find. */
export const nothingDiffers: ScenarioAsWritten["return"] = {
  shape: everyGrade(2.6),
  median_weeks: everyGrade(12),
  hazard_ratio: { ring: 1, surgery: 1, none: 1 },
};

const exact = { week_share: 0, month_share: 0, between_visits_share: 0 };

/** Distances far enough from the floor of what is drawn (0.3 mm, and the one at rest) that the mean changes are the scenario's own. */
const imaging: ScenarioAsWritten["imaging"] = {
  loaded_mm: {
    "1": { mean: 2.4, sd: 0.25 },
    "2": { mean: 3, sd: 0.4 },
    "3": { mean: 3.8, sd: 0.5 },
    "4a": { mean: 4.6, sd: 0.6 },
    "4b": { mean: 5.4, sd: 0.8 },
  },
};

/** A scenario of n injuries. */
export function scenarioOf(n: number, changes: Changes): Scenario {
  const { dates = "as written", sites = ["site-a"], ...parts } = changes;
  return completeScenario({
    name: "honesty",
    title: "SYNTHETIC: cohorts drawn to count how often intervals hold the truth",
    seed: 1,
    injuries: n,
    sites: sites.map((id) => ({ id, ...(dates === "exact" ? { dates: exact } : {}) })),
    ...(dates === "exact" ? { heaped_share: 0 } : {}),
    imaging,
    ...parts,
  });
}
