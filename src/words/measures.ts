import { type EffectUnit, type MeasureKey, measureOf } from "../study/measures/index.js";
import type { EffectResult } from "../study/results.js";
import type { Unit } from "./units.js";

/** How a measure of a difference between groups is named. */
export interface MeasureWords {
  /** What is compared, at a day in words, as the first cell of a row. */
  readonly compares: (day: string) => string;
  /** Over its block in the figure. */
  readonly title: string;
  /** What the compared group does on either side of no difference. */
  readonly better: "sooner" | "narrowed more";
  readonly worse: "later" | "narrowed less";
}

const sooner = { better: "sooner", worse: "later" } as const;

/** Every measure. */
export const measureWords: Readonly<Record<MeasureKey, MeasureWords>> = {
  landmark_difference: {
    ...sooner,
    compares: (day) => `Share back by ${day}`,
    title: "difference in the share back, percentage points",
  },
  restricted_mean_difference: {
    ...sooner,
    compares: (day) => `Restricted mean time to return, up to ${day}`,
    title: "difference in the restricted mean time to return, days",
  },
  hazard_ratio: {
    ...sooner,
    compares: () => "Hazard ratio of return",
    title: "hazard ratio of return, logarithmic axis",
  },
  distance_change_difference: {
    compares: () => "Change in the tendon-phalanx distance",
    title: "difference in the change of the tendon-phalanx distance, mm",
    better: "narrowed more",
    worse: "narrowed less",
  },
};

const units: Readonly<Record<EffectUnit, Unit>> = {
  share: "percentage points",
  d: "days",
  ratio: "ratio",
  mm: "mm",
};

/** How the figures of an effect are written: a difference of shares in percentage points. */
export const unitOf = ({ measure }: Pick<EffectResult, "measure">): Unit => units[measureOf(measure).unit];

/** Two groups that are compared, in words: the heading of their rows, and the name of a row of the figure. */
export const comparisonName = (compared: string, reference: string): string =>
  `${compared} compared with ${reference}`;

/** Where no two groups can be compared. */
export const nothingCompared = "Fewer than two groups have injuries, so nothing is compared.";
