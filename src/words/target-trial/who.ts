import { counted } from "../../schema/counted.js";
import { labelOf } from "../../schema/labels.js";
import type { Plan } from "../../study/plan.js";
import { gradeName } from "../curve-families.js";
import { eitherOf, listed } from "../phrases.js";

type Who = Plan["who"];

const terms = (items: readonly string[]): string => eitherOf(items.map(labelOf));

/** Each criterion of a study file, as a clause after "injuries". */
const criteria: readonly ((who: Who) => string | null)[] = [
  ({ sites }) => (sites === undefined ? null : `at ${eitherOf(sites)}`),
  ({ grades }) => (grades === undefined ? null : `of ${eitherOf(grades.map(gradeName))}`),
  ({ pulleys }) => (pulleys === undefined ? null : `of ${eitherOf(pulleys)}`),
  ({ extents }) => (extents === undefined ? null : `with a tear that is ${terms(extents)}`),
  ({ fingers }) => (fingers === undefined ? null : `of the ${terms(fingers)} finger`),
  ({ age }) => (age === undefined ? null : `of people aged ${age.from} to ${age.to}`),
  ({ first_visit_within_days: days }) =>
    days === undefined ? null : `first seen within ${counted(days, "day", "days")} of the injury`,
];

/** The injuries that a study asks about, after "the"; every one where the study file sets no criterion. */
export function whoWords(who: Who): string {
  const set = criteria.map((criterion) => criterion(who)).filter((words) => words !== null);
  return set.length === 0 ? "every injury" : `injuries ${listed(set)}`;
}
