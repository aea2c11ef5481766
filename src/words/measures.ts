import type { EffectResult } from "../study/results.js";
import type { Unit } from "./units.js";

type Measure = EffectResult["measure"];

/** How a measure of a difference between groups is named. */
export interface MeasureWords {
  /** What is compared, at a day in words, as the first cell of a row. */
  readonly compares: (day: string) => string;
  /** Over its block in the figure. */
  readonly title: string;
  readonly unit: Unit;
  /** What the compared group does on either side of no difference. */
  readonly better: "sooner" | "narrowed more";
  readonly worse: "later" | "narrowed less";
}

const sooner = { better: "sooner", worse: "later" } as const;

/** Every measure, in the order of tables and figure. */
export const measureWords: Readonly<Record<Measure, MeasureWords>> = {
  landmark_difference: {
    ...sooner,
    compares: (day) => `Share back by ${day}`,
    title: "difference in the share back, percentage points",
    unit: "percentage points",
  },
  restricted_mean_difference: {
    ...sooner,
    compares: (day) => `Restricted mean time to return, up to ${day}`,
    title: "difference in the restricted mean time to return, days",
    unit: "days",
  },
  hazard_ratio: {
    ...sooner,
    compares: () => "Hazard ratio of return",
    title: "hazard ratio of return, logarithmic axis",
    unit: "ratio",
  },
  distance_change_difference: {
    compares: () => "Change in the tendon-phalanx distance",
    title: "difference in the change of the tendon-phalanx distance, mm",
    unit: "mm",
    better: "narrowed more",
    worse: "narrowed less",
  },
};

/** The order of tables and figure. */
export const measureOrder = Object.keys(measureWords) as readonly Measure[];

/** Two groups that are compared, in words: the heading of their rows, and the name of a row of the figure. */
export const comparisonName = (compared: string, reference: string): string =>
  `${compared} compared with ${reference}`;

/** Where no two groups can be compared. */
export const nothingCompared = "Fewer than two groups have injuries, so nothing is compared.";
