import { labelOf } from "../schema/labels.js";
import type { Warning } from "../study/results.js";
import { gradeName } from "./curve-families.js";
import { plainNumber } from "./numbers.js";
import { groupName } from "./terms.js";

/** The facts of one warning by name; a fact that is not there is left out of the sentence with its words. */
export interface Facts {
  readonly has: (...names: readonly string[]) => boolean;
  readonly words: (name: string) => string;
  readonly number: (name: string) => number;
}

/** Facts that name a group of the field that the study compares by. */
const groups: ReadonlySet<string> = new Set(["group", "other", "compared", "reference"]);

export const factsOf = (facts: Warning["facts"], by: string): Facts => ({
  has: (...names) => names.every((name) => facts[name] !== undefined),
  words: (name) => {
    const value = facts[name] ?? "";
    if (typeof value === "number") return plainNumber(value, 3);
    if (name === "strata" || name === "definitions") return value;
    return groups.has(name) ? groupName(value, by) : labelOf(value);
  },
  number: (name) => Number(facts[name]),
});

/** So many of so many. */
export const ofAll = (what: string) => (facts: Facts) =>
  facts.has("n", "of") ? `${facts.words("n")} of ${facts.words("of")} ${what}` : "";

/** The curve that is warned of. */
export const curveOf = (facts: Facts): string =>
  facts.words("family") === "grade" ? gradeName(facts.words("group")) : facts.words("group");
