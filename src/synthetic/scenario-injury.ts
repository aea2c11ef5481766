import { z } from "zod";
import * as terms from "../schema/terms.js";
import { byGrade, drawnGrades, meanAndSd, share, weights } from "./scenario-grade.js";

/** Who is hurt. */
export const scenarioPersons = z
  .strictObject({
    several_injuries_share: share("Share of persons with two injured fingers in the data").default(0.05), // design choice
    same_moment_share: share(
      "Of these, share injured at the same moment rather than one after the other",
    ).default(0.5),
    correlation: z
      .number()
      .min(0)
      .max(0.95)
      .default(0.4) // design choice
      .describe("Correlation between the two return times of one person, on the normal scale"),
    male_share: share("Share of men; older series 87 %, less today").default(0.72), // design choice
    age: meanAndSd("Age at injury in years, drawn between 17 and 62").default({ mean: 30, sd: 8 }), // design choice
    level: z
      .strictObject({
        female: meanAndSd("Women: number of the level"),
        male: meanAndSd("Men: number of the level"),
      })
      .default({ female: { mean: 16, sd: 3 }, male: { mean: 18, sd: 3 } }) // design choice
      .describe("Sport level before the injury on the common number scale: 11 is 6a, 17 is 7a, 23 is 8a"),
  })
  .describe("The people who are injured");

const pulleyPattern = z.strictObject({
  pulleys: z.array(z.enum(terms.pulleys)).min(1).max(terms.pulleys.length).describe("Injured pulleys"),
  extents: z
    .array(z.enum(terms.extents))
    .min(1)
    .max(terms.pulleys.length)
    .describe("Extent of each, in the same order"),
  weight: z.number().positive().describe("How common this pattern is within the grade"),
});

/** Patterns by grade: common practice for what a grade means; the weights are design choices (A2 before A4 before A3). */
const usualPatterns: z.input<typeof pulleysByGrade> = {
  "1": [
    { pulleys: ["A2"], extents: ["strain"], weight: 3 },
    { pulleys: ["A4"], extents: ["strain"], weight: 1 },
  ],
  "2": [
    { pulleys: ["A2"], extents: ["partial"], weight: 6 },
    { pulleys: ["A4"], extents: ["complete"], weight: 3 },
    { pulleys: ["A3"], extents: ["complete"], weight: 1 },
  ],
  "3": [{ pulleys: ["A2"], extents: ["complete"], weight: 1 }],
  "4a": [
    { pulleys: ["A2", "A3"], extents: ["complete", "complete"], weight: 4 },
    { pulleys: ["A3", "A4"], extents: ["complete", "complete"], weight: 1 },
  ],
  "4b": [
    { pulleys: ["A2", "A3"], extents: ["complete", "complete"], weight: 2 },
    { pulleys: ["A2", "A3", "A4"], extents: ["complete", "complete", "complete"], weight: 1 },
  ],
};
const pulleysByGrade = byGrade(z.array(pulleyPattern).min(1).max(50), "Which pulleys, by grade");

/** What is hurt. */
export const scenarioInjury = z
  .strictObject({
    // Among tears 51, 34 and 15 % of grades 2, 3 and 4, from the counts of Klauser et al. 2002, Radiology 222:755 (47 tears);
    // the share of strains and the split of grade 4 are design choices.
    grade_mix: weights(drawnGrades, "How common each grade is").default({
      "1": 0.15,
      "2": 0.42,
      "3": 0.28,
      "4a": 0.1,
      "4b": 0.05,
    }),
    // Order ring, middle, others: Iruretagoiena et al. 2020, Diagnostics 10:206; the shares are design choices.
    finger_mix: weights(["index", "middle", "ring", "little"], "How often each finger is injured").default({
      index: 0.08,
      middle: 0.32,
      ring: 0.5,
      little: 0.1,
    }),
    pulleys: pulleysByGrade.default(usualPatterns as z.output<typeof pulleysByGrade>),
    pop_share: byGrade(share("Share"), "Share with an audible pop, by grade").default({
      "1": 0.1, // design choice
      "2": 0.4,
      "3": 0.65,
      "4a": 0.75,
      "4b": 0.8,
    }),
  })
  .describe("The injuries");

export type PulleyPattern = z.infer<typeof pulleyPattern>;
