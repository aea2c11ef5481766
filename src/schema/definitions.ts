import type { SiteRow } from "./sites.js";
import type { Milestone } from "./terms.js";

/** The column in which a site says what it means by a milestone. */
export const definitionColumns = {
  easy_climbing: "definition_easy",
  full_climbing: "definition_full",
  previous_level: "definition_previous",
} as const satisfies Readonly<Record<Milestone, keyof SiteRow>>;

/** A name that stands for a definition in a copy that `share` made: d and 24 hexadecimal digits. */
const keyedName = /^d[0-9a-f]{24}$/;

/** Whether a definition is told by a keyed name only: it can be compared with others under the same key, and not be read. */
export const isKeyedDefinition = (text: string): boolean => keyedName.test(text);

/**
 * A definition without what does not change its meaning: letter case, spaces and punctuation. Two sites mean the same where
 * these texts are equal; signs such as + and < are kept. Empty where there is no word.
 */
export const plainDefinition = (text: string): string =>
  text
    .normalize("NFKC")
    .toLowerCase()
    .replace(/[^\p{L}\p{M}\p{N}\p{S}]+/gu, " ")
    .trim();
