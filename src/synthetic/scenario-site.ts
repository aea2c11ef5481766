import { z } from "zod";
import { title } from "../schema/settings/texts.js";
import { waysToSite } from "../schema/terms.js";
import { firstTreatments } from "./scenario-course.js";
import { delay, share } from "./scenario-grade.js";

const multiplier = z.number().min(0).max(20);

const gradeMultiplier = z
  .strictObject({ "1": multiplier, "2": multiplier, "3": multiplier, "4a": multiplier, "4b": multiplier })
  .partial()
  .default({})
  .describe("Factor by which each grade is more common at this site than in the grade mix; 1 if left out");

/** How the site writes down when a milestone was reached; what is left of 1 is dated to the day. */
const dates = z
  .strictObject({
    week_share: share(
      "Share of injuries whose milestones are known to the week, in whole weeks since the injury",
    ),
    month_share: share("Share known to the month; the fifteenth is written"),
    between_visits_share: share("Share known only to lie between two visits"),
  })
  .refine(
    (s) => s.week_share + s.month_share + s.between_visits_share <= 1,
    "the three shares must add up to at most 1",
  )
  .default({ week_share: 0.08, month_share: 0.03, between_visits_share: 0.12 }) // design choice
  .describe("How exactly milestones are dated");

const visitWeeks = z.array(z.number().positive().max(260)).min(1).max(100);

/** One site: who comes, when they are seen, how things are written down. */
export const scenarioSite = z
  .strictObject({
    id: z
      .string()
      .regex(/^site-[a-z]$/, "a code such as site-a, never a name")
      .describe("Coded site"),
    share: z.number().positive().default(1).describe("Share of the persons; weights over the sites"),
    grade_multiplier: gradeMultiplier,
    ring_odds: z
      .number()
      .positive()
      .default(1)
      .describe("Multiplies the weight of the ring in every grade: the preference of the site"),
    referral_delay: delay("From the injury to the first visit").default({
      median_days: 4, // design choice
      log_sd: 0.6,
      longest_days: 21,
    }),
    visit_weeks: visitWeeks
      .default([4, 8, 13, 20, 26, 39, 52]) // design choice
      .describe("Planned visits, weeks after the first visit, ascending"),
    visit_weeks_by_treatment: z
      .partialRecord(z.enum(firstTreatments), visitWeeks)
      .default({})
      .describe("Another plan for those with this first treatment"),
    visit_spread_days: z
      .number()
      .int()
      .min(0)
      .max(13)
      .default(4)
      .describe("A visit falls at most this many days before or after its plan"),
    dates,
    grade_words: z
      .enum(["plain", "roman", "spelled_out"])
      .default("plain")
      .describe("How the site writes a grade: 3, III or grade 3"),
    definition_easy: title
      .default("first session on the wall, any protection")
      .describe("What the site calls easy climbing"),
    definition_full: title
      .default("all grips, no planned restriction")
      .describe("What the site calls full climbing"),
    definition_previous: title
      .default("same level as in the year before, repeated")
      .describe("What the site calls the previous level"),
    how_people_come: z
      .enum(waysToSite)
      .default("both")
      .describe(
        "How people come to the site, as it states it; what follows from it is said by the other keys",
      ),
    threshold_mm: z
      .number()
      .positive()
      .max(15)
      .default(2) // common practice, no source
      .describe("Loaded distance above which the site calls a rupture complete, mm"),
  })
  .describe("One site");

export type ScenarioSite = z.infer<typeof scenarioSite>;
