import { z } from "zod";
import { adjustable, comparable, groupFields } from "../schema/covariates.js";
import { filePath, title, wordOfTable } from "../schema/settings/texts.js";
import * as terms from "../schema/terms.js";
import { data } from "./plan-data.js";
import { knownOnce } from "./plan-lists.js";

/** From 0.1 on, which is a day: times are whole days. */
const weeks = z.number().min(0.1).max(520);
const nearestDay = "part of a week is counted as the nearest whole day, half a day as a whole one";

export { type Adjustable, adjustable, type Comparable, comparable } from "../schema/covariates.js";

/** What a share back is a share of, where some can no longer come back. */
export const sharesBack = ["of_everyone", "if_no_competing_end"] as const;

/** Whether sites that mean different things by a milestone may be counted together. */
const definitionRules = ["must_agree", "may_differ"] as const;

/** How returns that are not known to the day enter the figures. */
export const inexactReturns = ["by_rule", "as_spans", "on_one_day"] as const;

/** Which treatment of an injury is its first. */
export const firstTreatments = ["rest_aside", "of_compared", "of_all"] as const;

const question = z.strictObject({
  milestone: z.enum(terms.milestones).default("full_climbing").describe("The return that is counted"),
  clock: z
    .enum(["injury", "first_visit", "treatment_start"])
    .default("injury")
    .describe("Day 0: the injury, the first visit, or the start of the first treatment"),
  entry: z
    .enum(["clock", "first_visit"])
    .default("clock")
    .describe("At risk from day 0, or only from the first visit on (delayed entry)"),
  inexact_dates: z
    .enum(["midpoint", "latest", "earliest"])
    .default("midpoint")
    .describe("The day that is taken for a milestone known only to be between two days"),
  inexact_returns: z
    .enum(inexactReturns)
    .default("by_rule")
    .describe(
      "as_spans: returns stay between the days between which they are known to lie, and shares are estimated by a model. on_one_day: each is placed on a day by inexact_dates. by_rule: as spans where more than 3 returns in 10 are known to no better than 14 days, or such spans come to more than 15 days a return",
    ),
  competing_ends: knownOnce(z.enum(terms.competingEnds), 0)
    .default(["gave_up", "new_rupture", "died"])
    .describe(
      "Ends after which the milestone can no longer be seen; surgery only for injuries first treated otherwise",
    ),
  first_treatment: z
    .enum(firstTreatments)
    .default("rest_aside")
    .describe(
      "Which treatment is the first. rest_aside: the first of tape, ring, surgery and the groups compared, whatever rest or rehabilitation came before. of_compared: the first of the groups compared, whatever came before. of_all: whatever began first, rest and rehabilitation too",
    ),
  treatment_without_start: z
    .enum(["left_out", "from_injury"])
    .default("left_out")
    .describe(
      "left_out: an injury whose first treatment has no start date is not compared by treatment. from_injury: the treatment is taken to start with the injury, so that time before the treatment counts in its favour",
    ),
  share_back: z
    .enum(sharesBack)
    .default("of_everyone")
    .describe(
      "of_everyone: whoever came to a competing end counts as not back. if_no_competing_end: the share that would be back if there were no such ends, which nobody can observe",
    ),
  definitions: z
    .enum(definitionRules)
    .default("must_agree")
    .describe(
      "must_agree: where sites define the milestone differently, each definition is answered by itself. may_differ: they are counted together, and the report says that they differ",
    ),
});

/** Grades that can be asked about: a grade that was not recorded meets no criterion. */
const gradesAsked = z.enum(terms.grades).exclude(["unknown"]);
const years = z.number().int().min(0).max(120);

const who = z
  .strictObject({
    sites: knownOnce(wordOfTable, 1).optional().describe("Only these sites"),
    grades: knownOnce(gradesAsked, 1).optional().describe("Only these grades"),
    pulleys: knownOnce(z.enum(terms.pulleys), 1)
      .optional()
      .describe("Only injuries that involve at least one of these pulleys"),
    extents: knownOnce(z.enum(terms.extents), 1)
      .optional()
      .describe("Only injuries whose most severely injured pulley is torn to this extent"),
    fingers: knownOnce(z.enum(terms.fingers).exclude(["not_stated"]), 1)
      .optional()
      .describe("Only these fingers"),
    age: z
      .strictObject({ from: years.default(0), to: years.default(120) })
      .refine(({ from, to }) => from <= to, "from not above to")
      .optional()
      .describe("Only people of this age at the injury, in completed years, both ends included"),
    first_visit_within_days: z
      .number()
      .int()
      .min(0)
      .max(3650)
      .optional()
      .describe("Only injuries first seen within so many days"),
  })
  .describe(
    "The injuries asked about: all when left out; one that lacks a field asked for is not among them",
  );

const compare = z.strictObject({
  by: z.enum(comparable).default("first_treatment").describe("The field whose groups are compared"),
  groups: knownOnce(wordOfTable, 2)
    .default(["ring", "tape"])
    .describe("The groups, in the order of the report"),
  reference: wordOfTable.default("tape").describe("The group that the others are compared with"),
  adjust_for: knownOnce(z.enum(adjustable), 0)
    .default(["grade"])
    .describe("What the adjusted comparison holds equal"),
  within: z
    .enum(groupFields)
    .nullable()
    .default("grade")
    .describe("The groups are also set side by side within each value of this field; null for none"),
  smallest_group: z
    .number()
    .int()
    .min(2)
    .max(100)
    .default(5)
    .describe(
      "A stratum with fewer injuries than this in either group is left out of adjusted differences, and a group of fewer is not described",
    ),
});

const distance = z.strictObject({
  pulley: z.enum(terms.pulleys).default("A2"),
  position: z.enum(terms.positions).default("loaded"),
  threshold_mm: z
    .number()
    .positive()
    .max(15)
    .default(2)
    .describe("Distance above which a rupture is called complete (common practice, no source)"),
});

const windowOfGrade = z.strictObject({
  from_weeks: z.number().min(0).max(520),
  to_weeks: z.number().min(0).max(520).nullable().describe("null for 'or longer'"),
});

/** The usual windows of the grades to unrestricted climbing: common practice, no source. */
export const usualWindows = {
  "1": { from_weeks: 0, to_weeks: 6 },
  "2": { from_weeks: 8, to_weeks: 10 },
  "3": { from_weeks: 12, to_weeks: 14 },
  "4a": { from_weeks: 17, to_weeks: null },
  "4b": { from_weeks: 26, to_weeks: null },
} as const satisfies Record<string, z.infer<typeof windowOfGrade>>;

/** The study file: what is asked, of which data, in words that stay in version control. */
export const planSchema = z
  .strictObject({
    study: z
      .string()
      .regex(/^[a-z0-9][a-z0-9-]{0,63}$/, "small letters, digits and hyphens, at most 64")
      .describe("Short name of the study"),
    title: title.describe("Title of the report"),
    synthetic: z
      .boolean()
      .default(false)
      .describe("True for invented data: every figure and file is then marked SYNTHETIC"),
    data,
    question: question.prefault({}),
    compare: compare.prefault({}),
    who: who.prefault({}),
    horizon_weeks: weeks.default(26).describe(`Up to where the restricted mean time is taken; ${nearestDay}`),
    landmarks_weeks: knownOnce(weeks, 1)
      .default([6, 8, 10, 13, 17, 26])
      .describe(`Weeks at which the share back is read off; ${nearestDay}`),
    main_landmark_weeks: weeks
      .default(13)
      .describe("The one landmark that the plain words and the forest speak of"),
    distance: distance.prefault({}),
    usual_windows: z
      .partialRecord(z.enum(["1", "2", "3", "4a", "4b"]), windowOfGrade)
      .default(usualWindows)
      .describe("Usual windows of the grades, drawn as bands marked common practice"),
    confidence_level: z.number().min(0.5).max(0.999).default(0.95),
    sealed: filePath
      .optional()
      .describe(
        "The sealed plan, as the verb seal wrote it before the data were looked at; a path relative to the study file",
      ),
    seed: z
      .number()
      .int()
      .min(0)
      .max(4_294_967_295)
      .default(1)
      .describe("Seed of every random number of the run"),
  })
  .describe("A study of the return to climbing after finger pulley injuries");

export type Plan = z.infer<typeof planSchema>;
export type FirstTreatmentRule = Plan["question"]["first_treatment"];
export type InexactReturns = Plan["question"]["inexact_returns"];
export type ShareBack = Plan["question"]["share_back"];
export type PlanAsWritten = z.input<typeof planSchema>;
