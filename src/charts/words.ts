import type { Plan } from "../study/plan.js";
import type { Count, ReasonCode } from "../study/results.js";

/** The line under every figure that shows times of return. */
export const caution = "General information about a group, not advice for one finger.";

const milestones: Readonly<Record<Plan["question"]["milestone"], string>> = {
  easy_climbing: "easy climbing",
  full_climbing: "full climbing",
  previous_level: "the previous level",
};
export const milestoneWords = (plan: Plan): string => milestones[plan.question.milestone];

const clocks: Readonly<Record<Plan["question"]["clock"], string>> = {
  injury: "the injury",
  first_visit: "the first visit",
  treatment_start: "the start of the first treatment",
};
export const clockWords = (plan: Plan): string => clocks[plan.question.clock];

const irregularFields: ReadonlyMap<string, string> = new Map(
  Object.entries({
    site_id: "site",
    delay_days: "days from injury to first visit",
    distance_loaded_first: "first loaded tendon-phalanx distance",
    body_mass_kg: "body mass",
    height_cm: "height",
    prior_injury_same_finger: "earlier injury of the finger",
    other_side_ever_injured: "earlier injury of the other side",
    "4_undivided": "4, a or b not recorded",
  }),
);
/** A field or a stored term in the words of a reader. */
export const fieldWords = (field: string): string => irregularFields.get(field) ?? field.replaceAll("_", " ");

const reasons: Readonly<Record<ReasonCode, string>> = {
  "no-rows": "no injuries",
  "no-events": "nobody back",
  "not-reached": "not reached",
  "beyond-follow-up": "beyond follow-up",
  "one-group": "one group only",
  "too-few-rows": "too few injuries",
  "no-overlap": "groups do not overlap",
  "monotone-likelihood": "no finite estimate",
  "not-computed": "not computed",
  "no-covariates": "nothing to adjust for",
  "small-cell": "left out: too few people",
  collinear: "covariates not separable",
  "not-converged": "not converged",
  "all-returned": "all back",
  "no-variance": "no spread",
  "not-positive": "not positive",
  "one-reading-only": "one reading only",
};
/** Why there is no number. */
export const reasonWords = (reason: ReasonCode | null): string =>
  reason === null ? "not estimated" : reasons[reason];

/** The confidence level, as '95 %'. */
export const levelWords = (level: number): string => `${Number((100 * level).toFixed(3))} %`;

/** 'a, b and c'. */
export const listWords = (words: readonly string[]): string =>
  words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} and ${words.at(-1)}`;

export const counted = (n: Count, one: string, more: string): string => `${n} ${n === 1 ? one : more}`;
