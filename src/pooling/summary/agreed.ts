import type { z } from "zod";
import { canonicalText, inOrder, type KeyDifference, keyDifferences } from "../../schema/ordered-keys.js";
import { type Plan, planSchema } from "../../study/plan.js";

/** What all sites of a pool must ask alike: everything of a study file but its names, where its data lie, and its seed. */
export const agreedSchema = planSchema
  .omit({ study: true, title: true, data: true, seed: true, sealed: true })
  .describe("What all sites ask alike: the study file without its names, its data and its seed");

export type AgreedDifference = KeyDifference;
export type AgreedPart = z.infer<typeof agreedSchema>;

/** The agreed part of a plan; which sites a plan names is a matter of the site. */
export function agreedPartOf(plan: Plan): AgreedPart {
  const { study: _, title: __, data: ___, seed: ____, sealed: ______, who, ...agreed } = plan;
  const { sites: _____, ...asked } = who;
  return inOrder({ ...agreed, who: asked }) as AgreedPart;
}

/** The SHA-256 of the agreed part as its canonical text, hexadecimal. */
export const agreedFingerprint = (agreed: AgreedPart, sha256: (text: string) => string): string =>
  sha256(canonicalText(agreed));

/** Key by key, where two agreed parts differ. */
export const agreedDifferences = (one: AgreedPart, other: AgreedPart): readonly AgreedDifference[] =>
  keyDifferences(one, other);
