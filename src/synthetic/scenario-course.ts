import { z } from "zod";
import { byGrade, delay, share, weights } from "./scenario-grade.js";

/** First treatments a scenario draws; `none` stands for rest and a home programme only. */
export const firstTreatments = ["tape", "ring", "surgery", "none"] as const;
export type FirstTreatment = (typeof firstTreatments)[number];

const choice = weights(firstTreatments, "First treatment");
const probability = share("Probability");

/** Who gets what, and when. All figures are design choices; surgery in grades 3 to 4b only. */
export const scenarioTreatment = z
  .strictObject({
    // Worse grades get rings and surgery: confounding by grade.
    first: byGrade(choice, "First treatment by grade").default({
      "1": { tape: 0.8, ring: 0.1, surgery: 0, none: 0.1 },
      "2": { tape: 0.6, ring: 0.36, surgery: 0, none: 0.04 },
      "3": { tape: 0.36, ring: 0.55, surgery: 0.09, none: 0 },
      "4a": { tape: 0.2, ring: 0.5, surgery: 0.3, none: 0 },
      "4b": { tape: 0, ring: 0.3, surgery: 0.7, none: 0 },
    }),
    start_delay: z
      .strictObject({
        tape: delay("Tape, after the first visit"),
        ring: delay("Ring, after the first visit"),
        surgery: delay("Surgery, after the first visit"),
      })
      .default({
        tape: { median_days: 1, log_sd: 0.5, longest_days: 5 },
        ring: { median_days: 2, log_sd: 0.6, longest_days: 10 },
        surgery: { median_days: 9, log_sd: 0.5, longest_days: 28 },
      })
      .describe("From the first visit to the start of the first treatment"),
    tape_to_ring: byGrade(
      probability,
      "Probability that tape is replaced by a ring if the person has not returned by then",
    ).default({
      "1": 0.02,
      "2": 0.08,
      "3": 0.2,
      "4a": 0.25,
      "4b": 0.25,
    }),
    to_surgery: byGrade(
      probability,
      "Probability that tape or ring is followed by surgery if the person has not returned by then",
    ).default({
      "1": 0,
      "2": 0,
      "3": 0.02,
      "4a": 0.06,
      "4b": 0.15,
    }),
  })
  .describe("Treatments; a change of treatment does not change the time to the return (see course.ts)");

/** When people return. Medians lie in the usual windows (common practice, no source). */
export const scenarioReturn = z
  .strictObject({
    shape: byGrade(z.number().positive().max(20), "Weibull shape of the time to full climbing").default({
      "1": 2.6, // design choice
      "2": 2.6,
      "3": 2.6,
      "4a": 2.4,
      "4b": 2.2,
    }),
    median_weeks: byGrade(
      z.number().positive().max(260),
      "Median weeks from injury to full climbing under tape",
    ).default({ "1": 5, "2": 9, "3": 13, "4a": 18, "4b": 26 }),
    hazard_ratio: z
      .strictObject({
        ring: z.number().positive().max(20).describe("Ring against tape"),
        surgery: z.number().positive().max(20).describe("Surgery against tape"),
        none: z.number().positive().max(20).describe("Rest and home programme against tape"),
      })
      .default({ ring: 1.35, surgery: 0.8, none: 0.9 }) // design choice: invented, not a finding
      .describe("Ratio of the hazards of full climbing within a grade, from the start of the treatment on"),
    easy_fraction: z
      .strictObject({ lowest: share("Lowest"), highest: share("Highest") })
      .refine(({ lowest, highest }) => lowest <= highest, "lowest is not above highest")
      .default({ lowest: 0.45, highest: 0.8 }) // design choice
      .describe("Time to easy climbing as a fraction of the time to full climbing, uniformly distributed"),
    previous_delay_weeks: byGrade(
      z.number().positive().max(260),
      "Median weeks from full climbing to the previous level",
    ).default({ "1": 2, "2": 4, "3": 6, "4a": 9, "4b": 12 }), // design choice
    previous_log_sd: z
      .number()
      .min(0)
      .max(2)
      .default(0.6)
      .describe("Standard deviation of the logarithm of that delay"),
    // 65 to 95 % back at the level by 12 months for conservative care of grades 1 to 3 is the aim; design choice.
    never_previous: byGrade(share("Share"), "Share of people who never return to the previous level").default(
      {
        "1": 0.03,
        "2": 0.08,
        "3": 0.12,
        "4a": 0.2,
        "4b": 0.3,
      },
    ),
  })
  .describe("When people return");

const rate = (told: string) => z.number().min(0).max(1).describe(told);
const multiplier = z.number().min(0).max(20);
const byTreatment = <T extends z.ZodType>(item: T, told: string) =>
  z.strictObject({ tape: item, ring: item, surgery: item, none: item }).describe(told);
const byCourse = (told: string) =>
  z
    .number()
    .min(-3)
    .max(3)
    .default(0)
    .describe(
      `${told}: logarithm of its ratio for each standard deviation by which the return is later than others of the grade, on the normal scale; 0 where the course does not matter`,
    );

/** What else may end the follow-up. All figures are design choices. */
export const scenarioEnds = z
  .strictObject({
    lost_per_week: rate("Hazard of loss from the first visit on").default(0.007),
    lost_multiplier: byGrade(multiplier, "Multiplies the hazard of loss, by grade").default({
      "1": 1,
      "2": 1,
      "3": 1,
      "4a": 1,
      "4b": 1,
    }),
    lost_by_course: byCourse("Hazard of loss"),
    gave_up_per_week: rate("Hazard of giving up climbing from the first visit on").default(0.0025),
    gave_up_multiplier: byTreatment(
      multiplier,
      "Multiplies the hazard of giving up, by first treatment",
    ).default({
      tape: 1,
      ring: 1,
      surgery: 1,
      none: 1,
    }),
    gave_up_by_course: byCourse("Hazard of giving up"),
    new_rupture_per_week: rate("Hazard of a new rupture of the finger").default(0.001),
    new_rupture_after_return: multiplier
      .default(1)
      .describe("Multiplies the hazard of a new rupture from the return on"),
    complication_share: byTreatment(
      share("Share"),
      "Share with a complication found at a visit after the first, by first treatment",
    ).default({ tape: 0, ring: 0, surgery: 0, none: 0 }),
    new_rupture_from_week: z.number().min(0).max(260).default(5).describe("No new rupture before this week"),
    follow_up_weeks: z
      .number()
      .positive()
      .max(520)
      .default(60)
      .describe("Planned end of follow-up, weeks after injury"),
  })
  .describe("What else may end the follow-up");
