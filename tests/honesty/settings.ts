import { seededGenerator, wilson } from "../../src/statistics/index.js";
import type { Plan } from "../../src/study/index.js";
import { type Truth, trueEffects } from "../../src/synthetic/index.js";
import { type Drawn, drawnResults, planOf } from "./draw-study.js";
import { bandFindings } from "./findings-of-bands.js";
import { oneArmFindings } from "./findings-of-one-arm.js";
import { readingFindings } from "./findings-of-readings.js";
import { testFindings } from "./findings-of-tests.js";
import { twoArmFindings } from "./findings-of-two-arms.js";
import { type Changes, nothingDiffers, oneGrade, scenarioOf, treatedBy } from "./scenarios.js";
import type { Finding } from "./tally.js";

/** A kind of cohort, and what is read off each one drawn. */
export interface Setting {
  readonly name: string;
  readonly about: string;
  readonly replicates: number;
  /** Computed once and handed to every replicate; null where the truth is plain. */
  readonly truth: () => Truth | null;
  readonly replicate: (at: {
    readonly n: number;
    readonly seed: number;
    readonly stream: number;
    readonly truth: Truth | null;
  }) => readonly Finding[];
}

type Findings = (drawn: Drawn, truth: Truth) => readonly Finding[];

/** Cohorts drawn from a scenario and answered as a report answers them. */
function ofCohorts(
  setting: Pick<Setting, "name" | "about"> & {
    readonly changes: Changes;
    readonly plan?: Plan;
    readonly findings: Findings;
  },
): Setting {
  const { name, about, changes, findings, plan = planOf() } = setting;
  return {
    name,
    about,
    replicates: 2000,
    truth: () => trueEffects(scenarioOf(100, changes)),
    replicate: ({ n, seed, stream, truth }) =>
      findings(drawnResults(scenarioOf(n, changes), { plan, seed, stream }), truth!),
  };
}

/** Cohorts in which nothing differs: the truth is plain, and every small p-value an error. */
function withoutDifference(
  setting: Pick<Setting, "name" | "about"> & { readonly changes: Changes; readonly plan?: Plan },
): Setting {
  const changes = { ...setting.changes, return: nothingDiffers };
  return { ...ofCohorts({ ...setting, changes, findings: testFindings }), truth: () => null };
}

const byHand = planOf({
  compare: { by: "hand", groups: ["left", "right"], reference: "left", adjust_for: [] },
});
const bySite = planOf({
  compare: { by: "site_id", groups: ["site-b", "site-a"], reference: "site-a", adjust_for: ["grade"] },
});

/** Two injured fingers in 4 of 10 persons, times strongly correlated. */
const severalFingers = { several_injuries_share: 0.4, correlation: 0.6 };
const alone = { several_injuries_share: 0 };
const halfAndHalf = treatedBy({ tape: 0.5, ring: 0.5 });
const allTape = treatedBy({ tape: 1, ring: 0 });

const counted: Setting = {
  name: "counts",
  about: "A share of n, drawn with true shares 0.1, 0.3 and 0.5.",
  replicates: 4000,
  truth: () => null,
  replicate: ({ n, seed, stream }) => {
    const { uniform } = seededGenerator(seed, stream);
    return [0.1, 0.3, 0.5].map((truth): Finding => {
      const successes = Array.from({ length: n }, () => uniform()).filter((u) => u < truth).length;
      const { estimate, lower, upper } = wilson(successes, n);
      return {
        kind: "interval",
        name: `share ${truth}, score interval`,
        truth,
        value: estimate,
        lower,
        upper,
      };
    });
  },
};

/** Two readings of each finger with a reference standard, alike within persons: true shares 0.8, true kappa from the law of the draws. */
const readings: Setting = {
  name: "readings of several fingers",
  about:
    "Sensitivity and specificity of a threshold and kappa of two raters, true values 0.8, 0.8 and 0.5; n fingers, 4 of 10 persons with two of them, readings correlated 0.6 within persons. For the library: a report prints none of these.",
  replicates: 2000,
  truth: () => null,
  replicate: readingFindings,
};

/** Curves as bands: whether the whole curve lies within. */
const wholeCurve: Setting = {
  name: "whole curves, several fingers",
  about:
    "Bands at 95 % from the first decile of the true curve to the last, exact times without competing ends, uniform censoring; n fingers, 4 of 10 persons with two, times correlated 0.6. For the library: a report prints no bands.",
  replicates: 1000,
  truth: () => null,
  replicate: bandFindings,
};

/** Every setting, in the order of the table. New ones go at the end: the place is part of the seed. */
export const settings: readonly Setting[] = [
  ofCohorts({
    name: "one group, exact dates",
    about:
      "One grade, all taped, one injury a person; loss and competing ends as in the toolkit's scenarios; every date exact.",
    changes: { dates: "exact", persons: alone, injury: oneGrade, treatment: allTape },
    plan: byHand,
    findings: oneArmFindings,
  }),
  ofCohorts({
    name: "one group, dates as written",
    about:
      "The same with dates as clinics write them: 12 % known between two visits (midpoint taken), 8 % to the week, 3 % to the month, 15 % heaped.",
    changes: { persons: alone, injury: oneGrade, treatment: allTape },
    plan: byHand,
    findings: oneArmFindings,
  }),
  ofCohorts({
    name: "one group, several fingers",
    about: "Exact dates; 4 of 10 persons with two injured fingers, times correlated 0.6.",
    changes: { dates: "exact", persons: severalFingers, injury: oneGrade, treatment: allTape },
    plan: byHand,
    findings: oneArmFindings,
  }),
  ofCohorts({
    name: "two groups, nothing confounded",
    about: "One grade, ring or tape by lot, hazard ratio 1.35, one injury a person, dates as written.",
    changes: { persons: alone, injury: oneGrade, treatment: halfAndHalf },
    findings: twoArmFindings,
  }),
  ofCohorts({
    name: "two groups, confounded by grade",
    about:
      "Five grades, worse grades ringed more often, hazard ratio 1.35 within a grade, one injury a person, dates as written. Adjusted figures against the truth over the grades used.",
    changes: { persons: alone },
    findings: twoArmFindings,
  }),
  ofCohorts({
    name: "two groups, confounded, several fingers",
    about: "The same with 4 of 10 persons with two injured fingers, times correlated 0.6.",
    changes: { persons: severalFingers },
    findings: twoArmFindings,
  }),
  withoutDifference({
    name: "nothing differs",
    about:
      "All grades and treatments return alike; one injury a person. Share of p below 0.05; the grades tested in the first 500 replicates.",
    changes: { persons: alone },
  }),
  withoutDifference({
    name: "nothing differs, several fingers treated each by itself",
    about: "The same with 4 of 10 persons with two injured fingers, times correlated 0.6.",
    changes: { persons: severalFingers },
  }),
  withoutDifference({
    name: "nothing differs, several fingers always in one group",
    about:
      "Two sites compared, so that both fingers of a person are in the same group; times correlated 0.6.",
    changes: { persons: severalFingers, sites: ["site-a", "site-b"] },
    plan: bySite,
  }),
  counted,
  readings,
  wholeCurve,
];

export const sizes = [20, 40, 80, 200] as const;
