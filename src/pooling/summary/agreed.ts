import type { z } from "zod";
import { type Plan, planSchema } from "../../study/plan.js";

/** What all sites of a pool must ask alike: everything of a study file but its names, where its data lie, and its seed. */
export const agreedSchema = planSchema
  .omit({ study: true, title: true, data: true, seed: true })
  .describe("What all sites ask alike: the study file without its names, its data and its seed");

export type AgreedPart = z.infer<typeof agreedSchema>;

/** The agreed part of a plan; which sites a plan names is a matter of the site. */
export function agreedPartOf(plan: Plan): AgreedPart {
  const { study: _, title: __, data: ___, seed: ____, who, ...agreed } = plan;
  const { sites: _____, ...asked } = who;
  return inOrder({ ...agreed, who: asked }) as AgreedPart;
}

/** The agreed part as the text of which the fingerprint is taken: keys in the order of the alphabet, no spaces. */
export const agreedText = (agreed: AgreedPart): string => JSON.stringify(inOrder(agreed));

/** The SHA-256 of the agreed part, hexadecimal. */
export const agreedFingerprint = (agreed: AgreedPart, sha256: (text: string) => string): string =>
  sha256(agreedText(agreed));

/** The same value with the keys of every object in the order of the alphabet. */
export function inOrder(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(inOrder);
  if (typeof value !== "object" || value === null) return value;
  const entries = Object.entries(value).filter(([, each]) => each !== undefined);
  return Object.fromEntries(
    entries.sort(([one], [other]) => (one < other ? -1 : 1)).map(([key, each]) => [key, inOrder(each)]),
  );
}

/** A key in which two study files differ; null where one of them has no such key. */
export interface AgreedDifference {
  /** As `question.milestone`. */
  readonly key: string;
  readonly one: string | null;
  readonly other: string | null;
}

/** Key by key, where two agreed parts differ. */
export function agreedDifferences(one: AgreedPart, other: AgreedPart): readonly AgreedDifference[] {
  const [here, there] = [new Map(leavesOf(inOrder(one))), new Map(leavesOf(inOrder(other)))];
  return [...new Set([...here.keys(), ...there.keys()])]
    .sort()
    .map((key) => ({ key, one: here.get(key) ?? null, other: there.get(key) ?? null }))
    .filter((each) => each.one !== each.other);
}

/** Values by their path; a list is one value. */
function leavesOf(value: unknown, path: readonly string[] = []): readonly (readonly [string, string])[] {
  if (typeof value !== "object" || value === null || Array.isArray(value))
    return [[path.join("."), JSON.stringify(value)]];
  return Object.entries(value).flatMap(([key, each]) => leavesOf(each, [...path, key]));
}
