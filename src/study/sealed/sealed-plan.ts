import { z } from "zod";
import { canonicalText, inOrder, keyDifferences } from "../../schema/ordered-keys.js";
import { day } from "../../schema/settings/texts.js";
import { type Plan, planSchema } from "../plan.js";

const askedSchema = planSchema
  .omit({ study: true, title: true, synthetic: true, data: true, sealed: true })
  .describe(
    "What is asked: the study file without its names, and without where the data lie and how they are read",
  );

/** What a study asked before its data were looked at. */
export const sealedPlanSchema = z
  .strictObject({
    format: z.literal("pulley-outcomes sealed plan 1"),
    sealed_on: day.describe("The day that was stated when the plan was sealed"),
    study: z.string().describe("Short name of the study"),
    asked: askedSchema,
    sha256: z
      .string()
      .regex(/^[0-9a-f]{64}$/)
      .describe(
        "Of the four keys above, as JSON without spaces and with the keys of every object in the order of the alphabet",
      ),
  })
  .describe("What a study asks, sealed before its data are looked at");

export type SealedPlan = z.infer<typeof sealedPlanSchema>;

type Sha256 = (text: string) => string;

/** What a plan asks; that the site is held equal follows from naming several, and is not asked. */
function askedOf(plan: Plan): SealedPlan["asked"] {
  const { study: _, title: __, synthetic: ___, data, sealed: ____, ...asked } = plan;
  if (data.from_sites === undefined) return asked;
  const adjust_for = asked.compare.adjust_for.filter((field) => field !== "site_id");
  return { ...asked, compare: { ...asked.compare, adjust_for } };
}

/** A plan as it is now, sealed on the day that is stated. */
export function sealPlan(
  plan: Plan,
  { on, sha256 }: { readonly on: string; readonly sha256: Sha256 },
): SealedPlan {
  const content = {
    format: "pulley-outcomes sealed plan 1" as const,
    sealed_on: on,
    study: plan.study,
    asked: inOrder(askedOf(plan)) as SealedPlan["asked"],
  };
  return { ...content, sha256: digestOf(content, sha256) };
}

/** Whether a sealed plan says what it said when it was sealed. */
export const isWhole = ({ sha256: stated, ...content }: SealedPlan, sha256: Sha256): boolean =>
  digestOf(content, sha256) === stated;

const digestOf = (content: Omit<SealedPlan, "sha256">, sha256: Sha256): string =>
  sha256(canonicalText(content));

/** What became of a sealed plan: the keys in which what is asked now differs from it. */
export const sealedResult = z.strictObject({
  on: day,
  sha256: z.string(),
  changed: z
    .array(
      z.strictObject({
        key: z.string().describe("Key of the study file, as question.milestone"),
        sealed: z
          .string()
          .nullable()
          .describe("Its value as JSON when it was sealed; null where it had none"),
        now: z.string().nullable().describe("Its value as JSON in this run; null where it has none"),
      }),
    )
    .describe("None where the same is asked, key by key"),
});

export type SealedResult = z.infer<typeof sealedResult>;

/** A plan beside what was sealed. */
export const besideSealed = (plan: Plan, seal: SealedPlan): SealedResult => ({
  on: seal.sealed_on,
  sha256: seal.sha256,
  changed: keyDifferences(seal.asked, askedOf(plan)).map(({ key, one, other }) => ({
    key,
    sealed: one,
    now: other,
  })),
});
