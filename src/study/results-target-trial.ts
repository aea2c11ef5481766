import { z } from "zod";
import { firstTreatments } from "./plan.js";
import { count, estimate, maybe } from "./results-parts.js";

const counted = z.strictObject({ code: z.string(), n: count });

const group = z.strictObject({
  label: z.string(),
  n: count,
  began_by_day_0: count.describe("Injuries whose treatment began on day 0 or before it"),
  began_later: count,
  median_days: maybe.describe("Median of the days from day 0 to the start of the treatment"),
  longest_days: maybe,
  had_another_before: count.describe(
    "Injuries in which another treatment began before the one that counts as the first",
  ),
  before: z.array(counted).describe("What that was; an injury can have had several"),
  before_not_known: count.describe(
    "Further injuries in which another treatment has no start, so that it may have come before",
  ),
  went_on: count.describe(
    "Injuries in which another of the treatments that can be the first began later, before the return or another end",
  ),
  later: z.array(counted).describe("What that was"),
  lost: count.describe("Lost to follow-up before the horizon"),
});
export type TrialGroup = z.infer<typeof group>;

const reading = z.strictObject({
  first_treatment: z.enum(firstTreatments),
  groups: z.array(z.strictObject({ label: z.string(), n: count })),
  differences: z
    .array(
      z.strictObject({
        compared: z.string(),
        reference: z.string(),
        adjusted_for: z.array(z.string()),
        n: z.strictObject({ compared: count, reference: count }),
        returned: estimate.describe("Difference in the share back by the main landmark"),
      }),
    )
    .describe("None where sites that define the milestone differently are not pooled"),
});
export type OtherReading = z.infer<typeof reading>;

/** Parts of a trial that would answer the question. */
export const trialParts = [
  "eligible",
  "treatments",
  "assignment",
  "day_0",
  "outcome",
  "follow_up",
  "contrast",
  "analysis",
] as const;
export type TrialPart = (typeof trialParts)[number];

const shortfall = z.strictObject({
  part: z.enum(trialParts),
  code: z.enum([
    "set-aside",
    "not-known-to-be-eligible",
    "cannot-answer",
    "had-another-before",
    "before-not-known",
    "not-placed",
    "began-later",
    "back-before-treatment",
    "start-assumed",
    "adjusted-only-for",
    "not-adjusted",
    "unlike-at-the-start",
    "dated-roughly",
    "definitions-differ",
    "lost",
    "other-ends",
    "went-on",
    "no-figure",
    "strata-left-out",
    "field-not-recorded",
  ]),
  facts: z
    .record(z.string(), z.union([z.string(), z.number()]))
    .describe("Counts, groups and fields; several in one text are divided by |"),
});
export type Shortfall = z.infer<typeof shortfall>;

/** The trial that would answer the question, and where these data fall short of it. */
export const targetTrial = z
  .strictObject({
    groups: z.array(group).describe("The treatments compared, in the order of the study file"),
    other_readings: z
      .array(reading)
      .describe("Other rules of which treatment is the first, where they put other injuries into the groups"),
    falls_short: z.array(shortfall).describe("What was found in these data, part by part"),
  })
  .describe("The study as the emulation of a trial (Hernán & Robins 2016, Am J Epidemiol 183:758)");
