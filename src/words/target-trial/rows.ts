import type { Results, TrialPart } from "../../study/results.js";
import { emulated } from "./emulated.js";
import { shortfallWords } from "./shortfalls.js";

/** A part of the trial: how a reader calls it, what this study does in its place, and where the data fall short. */
export interface TrialRow {
  readonly part: TrialPart;
  readonly name: string;
  readonly emulated: string;
  readonly falls_short: readonly string[];
}

const names: Readonly<Record<TrialPart, string>> = {
  eligible: "Who is eligible",
  treatments: "Treatments compared",
  assignment: "How and when assigned",
  day_0: "Day 0",
  outcome: "Outcome",
  follow_up: "End of follow-up and other ends",
  contrast: "Contrast",
  analysis: "Analysis",
};

/** The table of the target trial; no rows where no treatments are compared. */
export const trialRows = (results: Results): readonly TrialRow[] => {
  const trial = results.target_trial;
  if (trial === null) return [];
  return (Object.keys(names) as TrialPart[]).map((part) => ({
    part,
    name: names[part],
    emulated: emulated[part](results, trial),
    falls_short: trial.falls_short.filter((one) => one.part === part).map(shortfallWords),
  }));
};
