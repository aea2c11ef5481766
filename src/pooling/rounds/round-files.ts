import { z } from "zod";
import { summedTieMethods } from "../../statistics/hazards/layout/ties.js";
import { roundLaws } from "../../statistics/pooling/rounds/index.js";
import { agreedSchema } from "../summary/agreed.js";

const digest = z.string().regex(/^[0-9a-f]{64}$/, "64 hexadecimal digits");
const number = z.number();
const count = z.number().int().min(0).max(1e9);
/** More than a regression over rounds can have; it bounds what a hostile file can ask for. */
const mostParameters = 400;
/** What a point asks of the sites: sums; the squared scores of their people too; what the deletion of each of them changes too. */
export const asksOf = ["sums", "squares", "deletions"] as const;
const mostSites = 1_000;
const vector = z.array(number).max(mostParameters + mostSites);
const matrix = z.array(vector).max(mostParameters + mostSites);
export const siteName = z
  .string()
  .min(1)
  .max(100)
  .regex(/^[^\p{Cc}\p{Zl}\p{Zp}]*$/u, "no line breaks or control characters");

export const fitModelSchema = z.discriminatedUnion("fit", [
  z
    .strictObject({
      fit: z.literal("hazards"),
      ties: z.enum(summedTieMethods),
      asked: agreedSchema,
    })
    .describe("Proportional hazards, each stratum of each site with a baseline of its own"),
  z
    .strictObject({
      fit: z.literal("accelerated"),
      law: z.enum(roundLaws),
      asked: agreedSchema,
    })
    .describe(
      "Accelerated times, returns between the days between which they are known; each site an intercept",
    ),
]);

export type FitModel = z.infer<typeof fitModelSchema>;

const ascentSchema = z.strictObject({
  taken: z.strictObject({
    point: vector,
    logLikelihood: number,
    score: vector,
    information: matrix,
  }),
  step: vector,
  part: z.number().positive().max(1),
  free: z.array(count).max(mostParameters + mostSites),
  first: vector,
});

const sealed = {
  format: z.literal("pulley-outcomes round 1"),
  sha256: digest.describe(
    "Of the rest of this file, keys in order: a file that was altered no longer has it",
  ),
};

/** What the coordinator sends to every site: a point, and how it came about. */
export const pointFileSchema = z.strictObject({
  ...sealed,
  kind: z.literal("point"),
  model: fitModelSchema,
  smallest_cell: z.number().int().min(1).max(1000),
  round: z.number().int().min(0).max(100),
  asks: z
    .enum(asksOf)
    .describe(
      "Sums; with the squared scores of the people; with these and what the deletion of each person changes",
    ),
  parameters: z.array(z.string().min(1).max(200)).max(mostParameters).describe("Those that all sites share"),
  shared: vector.describe("The point: a value for each parameter"),
  intercept: number
    .nullable()
    .describe("Of every site in the first round of a fit with intercepts; later each site has its own"),
  sites: z
    .array(
      z.strictObject({
        site: siteName,
        rows: digest.describe("Fingerprint of the sums over the site's rows where the fit began"),
        intercept: number.nullable(),
        answer: digest.describe("Of the answer to the point before this one"),
      }),
    )
    .max(mostSites)
    .describe("In order of name; none in the first round"),
  previous: digest.nullable().describe("Of the point file that was answered; null in the first round"),
  sent: count.describe("Numbers over its rows that each site has sent before it answers this point"),
  ascent: ascentSchema.nullable(),
  maximum: z
    .strictObject({ score: vector, information: matrix, free: z.array(count).max(mostParameters) })
    .nullable()
    .describe(
      "Sums of all sites at this point, where deletions are asked for; free: parameters with a number",
    ),
});

export type PointFile = z.infer<typeof pointFileSchema>;

/** What a site answers: sums over its rows at the point. */
export const answerFileSchema = z.strictObject({
  ...sealed,
  kind: z.literal("answer"),
  site: siteName,
  round: z.number().int().min(0).max(100),
  answers: digest.describe("Of the point file that is answered"),
  rows: digest,
  n: count.nullable().describe("Injuries; null where few are beyond one a person"),
  events: count.nullable().describe("Returns; null where few returned, or few did not"),
  people: count,
  left_out: count
    .nullable()
    .describe("Injuries without a value that the fit needs, or of a small group; null for a small cell"),
  log_likelihood: number,
  score: vector,
  information: matrix,
  squares: matrix.nullable(),
  deletions: matrix
    .nullable()
    .describe(
      "Of the free parameters; null where not asked for, or where the rows are too many to go through",
    ),
});

export type AnswerFile = z.infer<typeof answerFileSchema>;

const estimateOrNull = number.nullable();

/** What comes out of the last round. */
export const fitFileSchema = z.strictObject({
  ...sealed,
  kind: z.literal("fit"),
  model: fitModelSchema,
  rounds: count,
  point: digest.describe("Of the last point file"),
  sites: z.array(
    z.strictObject({
      site: siteName,
      n: count.nullable(),
      events: count.nullable(),
      people: count,
      left_out: count.nullable(),
      answer: digest,
    }),
  ),
  n: count.nullable().describe("Null where a site leaves out its own"),
  events: count.nullable(),
  people: count,
  confidence_level: number,
  converged: z.boolean(),
  log_likelihood: number,
  intervals_take: z.literal("every person on their own, whatever the number of their injuries"),
  few_people: z.strictObject({
    correction: z
      .enum(["deletion", "people", "parameters"])
      .describe(
        "Of the variance over G people: by what each one's deletion changes; times G / (G - 1); times G / (G - parameters)",
      ),
    degrees_of_freedom: count.describe("Of Student's t, by which intervals and p are"),
  }),
  revealed: z
    .strictObject({ answers: count, numbers: count })
    .describe(
      "What each site has sent for this fit: answers, and numbers in them that are sums over its rows",
    ),
  parameters: z.array(
    z.strictObject({
      name: z.string(),
      what: z.enum(["hazard_ratio", "time_ratio", "intercept", "log_scale"]),
      coefficient: estimateOrNull,
      standard_error: estimateOrNull.describe("From the information: each injury on its own"),
      clustered_standard_error: estimateOrNull.describe("Over people, corrected for few of them"),
      ratio: estimateOrNull,
      lower: estimateOrNull,
      upper: estimateOrNull,
      p: estimateOrNull,
      reason: z.string().nullable(),
    }),
  ),
});

export type FitFile = z.infer<typeof fitFileSchema>;
