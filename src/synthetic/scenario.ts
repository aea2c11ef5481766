import { z } from "zod";
import { day, title } from "../schema/settings/texts.js";
import { scenarioEnds, scenarioReturn, scenarioTreatment } from "./scenario-course.js";
import { share } from "./scenario-grade.js";
import { scenarioImaging } from "./scenario-imaging.js";
import { scenarioInjury, scenarioPersons } from "./scenario-injury.js";
import { scenarioSite } from "./scenario-site.js";

/** A cohort is drawn in memory: of so many injuries it takes about 2.5 GB. */
export const mostInjuries = 100_000;
/** Seeds are numbers of 32 bits. */
export const largestSeed = 4_294_967_295;

/**
 * A scenario file: everything an invented cohort is drawn from, so that the true effects are known.
 *
 * What is left out takes its default. The figures are design choices unless a comment names a source; none is a finding
 * about patients.
 */
export const scenarioSchema = z
  .strictObject({
    name: z
      .string()
      .regex(/^[a-z0-9][a-z0-9-]{0,63}$/, "small letters, digits and hyphens, at most 64")
      .describe("Short name of the scenario"),
    title: title.describe("Title of the invented setting"),
    seed: z.number().int().min(0).max(largestSeed).describe("Seed of every random number of the cohort"),
    injuries: z.number().int().min(1).max(mostInjuries).describe("How many injuries are drawn"),
    first_day: day.default("2021-02-01").describe("First day on which an injury can happen"),
    accrual_months: z
      .number()
      .positive()
      .max(240)
      .default(24)
      .describe("Injuries happen evenly over this many months of 30.4375 days"),
    administrative_end_months: z
      .number()
      .positive()
      .max(360)
      .default(33)
      .describe("The data are closed this many months after the first day"),
    heaped_share: share(
      "Share of injuries whose milestones look exact but are a whole number of weeks after the injury",
    ).default(0.15), // design choice
    sites: z
      .array(scenarioSite)
      .min(1)
      .refine((sites) => new Set(sites.map(({ id }) => id)).size === sites.length, "each site only once")
      .describe("The sites"),
    persons: scenarioPersons.prefault({}),
    injury: scenarioInjury.prefault({}),
    treatment: scenarioTreatment.prefault({}),
    return: scenarioReturn.prefault({}),
    ends: scenarioEnds.prefault({}),
    imaging: scenarioImaging.prefault({}),
  })
  .refine(
    ({ accrual_months, administrative_end_months }) => administrative_end_months >= accrual_months + 2,
    "administrative_end_months must be at least 2 more than accrual_months, so that everybody can be seen",
  )
  .describe("A scenario of an invented (SYNTHETIC) cohort");

/** A scenario with every default filled in. */
export type Scenario = z.output<typeof scenarioSchema>;
/** A scenario as somebody writes it. */
export type ScenarioAsWritten = z.input<typeof scenarioSchema>;
