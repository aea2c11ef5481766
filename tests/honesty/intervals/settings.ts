import { seededGenerator, wilson } from "../../../src/statistics/index.js";
import type { Plan } from "../../../src/study/index.js";
import { type Truth, trueEffects } from "../../../src/synthetic/index.js";
import { type Draw, type Setting, settingOf } from "../setting.js";
import type { Finding } from "../tally.js";
import { type Drawn, drawnResults, planOf } from "./draw-study.js";
import { bandFindings } from "./findings-of-bands.js";
import { oneArmFindings, suppositionFindings } from "./findings-of-one-arm.js";
import { readingFindings } from "./findings-of-readings.js";
import { testFindings } from "./findings-of-tests.js";
import { twoArmFindings } from "./findings-of-two-arms.js";
import { printed } from "./read-off.js";
import { type Changes, nothingDiffers, oneGrade, scenarioOf, treatedBy } from "./scenarios.js";

const sizes = [20, 40, 80, 200] as const;

/** What is drawn and read off, the seed being that of the setting and size. */
type Drawing<Known> = Pick<Setting, "name" | "about" | "replicates"> & {
  readonly truth: () => Known;
  readonly findings: (draw: Draw & { readonly seed: number }, truth: Known) => readonly Finding[];
};

/** Cohorts drawn from a scenario and answered as a report answers them. */
function ofCohorts({
  name,
  about,
  changes,
  findings,
  plan = planOf(),
}: Pick<Setting, "name" | "about"> & {
  readonly changes: Changes;
  readonly plan?: Plan;
  readonly findings: (drawn: Drawn, truth: Truth) => readonly Finding[];
}): Drawing<Truth> {
  return {
    name,
    about,
    replicates: 400,
    truth: () => trueEffects(scenarioOf(100, changes)),
    findings: ({ n, seed, stream }, truth) =>
      findings(drawnResults(scenarioOf(n, changes), { plan, seed, stream }), truth),
  };
}

/** Cohorts in which nothing differs: the truth is plain, and every small p-value an error. */
function withoutDifference({
  name,
  about,
  changes,
  plan = planOf(),
}: Pick<Setting, "name" | "about"> & {
  readonly changes: Changes;
  readonly plan?: Plan;
}): Drawing<null> {
  const alike = { ...changes, return: nothingDiffers };
  return {
    name,
    about,
    replicates: 400,
    truth: () => null,
    findings: ({ n, seed, stream }) =>
      testFindings(drawnResults(scenarioOf(n, alike), { plan, seed, stream })),
  };
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

const nobodyElse = planOf({
  question: { share_back: "if_no_competing_end" },
  compare: { by: "hand", groups: ["left", "right"], reference: "left", adjust_for: [] },
});

const counted: Drawing<null> = {
  name: "counts",
  about: "A share of n, drawn with true shares 0.1, 0.3 and 0.5.",
  replicates: 4000,
  truth: () => null,
  findings: ({ n, seed, stream }) => {
    const { uniform } = seededGenerator(seed, stream);
    return [0.1, 0.3, 0.5].map((truth) => {
      const successes = Array.from({ length: n }, () => uniform()).filter((u) => u < truth).length;
      const { estimate: value, lower, upper } = wilson(successes, n);
      return printed(`share ${truth}, score interval`, { value, lower, upper }, truth);
    });
  },
};

/** Two readings of each finger with a reference standard, alike within persons: true shares 0.8, true kappa from the law of the draws. */
const readings: Drawing<null> = {
  name: "readings of several fingers",
  about:
    "Sensitivity and specificity of a threshold and kappa of two raters, true values 0.8, 0.8 and 0.5; n fingers, 4 of 10 persons with two of them, readings correlated 0.6 within persons. For the library: a report prints none of these.",
  replicates: 1000,
  truth: () => null,
  findings: readingFindings,
};

/** Curves as bands: whether the whole curve lies within. */
const wholeCurve: Drawing<null> = {
  name: "whole curves, several fingers",
  about:
    "Bands at 95 % from the first decile of the true curve to the last, exact times without competing ends, uniform censoring; n fingers, 4 of 10 persons with two, times correlated 0.6. For the library: a report prints no bands.",
  replicates: 400,
  truth: () => null,
  findings: bandFindings,
};

/** New ones go at the end: the place is part of the seed. */
const drawings = [
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
      "All grades and treatments return alike; one injury a person. Share of p below 0.05; the grades tested in the first 200 replicates.",
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
  ofCohorts({
    name: "one group, if nobody came to another end",
    about:
      "The first setting, asked for the share that would be back if nobody gave up or ruptured the finger anew before a return.",
    changes: { dates: "exact", persons: alone, injury: oneGrade, treatment: allTape },
    plan: nobodyElse,
    findings: suppositionFindings,
  }),
];

function withSeed<Known>({ findings, ...drawing }: Drawing<Known>, place: number): Setting {
  return settingOf<Known>({
    ...drawing,
    part: "intervals",
    allows: "days",
    sizes,
    replicate: (draw, truth) => findings({ ...draw, seed: 31_000_000 + 1000 * place + draw.n }, truth),
  });
}

export const intervalSettings: readonly Setting[] = drawings.map((drawing, place) =>
  withSeed(drawing as Drawing<unknown>, place),
);
