import { counted } from "../../schema/counted.js";
import { labelOf } from "../../schema/labels.js";
import type { Plan } from "../../study/plan.js";
import type { Results } from "../../study/results.js";
import { gradeName } from "../../words/curve-families.js";
import { capital, eitherOf, listed, peopleOf } from "../../words/phrases.js";
import { featureWords, type TalkGroup } from "./groups.js";

type Who = Plan["who"];

/** So many letters of the names of sites are shown: a page has an end. */
const longestNames = 60;

function sitesOf(sites: readonly string[]): string {
  const named = eitherOf(sites.map((site) => `“${site}”`));
  return named.length <= longestNames ? named : `one of ${counted(sites.length, "site", "sites")}`;
}

/** Each criterion of a study file, as a clause after "an injury". */
const criteria: readonly ((who: Who) => string | null)[] = [
  ({ grades }) => (grades === undefined ? null : `of ${eitherOf(grades.map(gradeName))}`),
  ({ pulleys }) => (pulleys === undefined ? null : `of the pulley ${eitherOf(pulleys)}`),
  ({ extents }) => (extents === undefined ? null : `with a tear that is ${eitherOf(extents.map(labelOf))}`),
  ({ fingers }) => (fingers === undefined ? null : `of the ${eitherOf(fingers.map(labelOf))} finger`),
  ({ age }) => (age === undefined ? null : `at the age of ${age.from} to ${age.to}`),
  ({ first_visit_within_days: days }) =>
    days === undefined ? null : `first seen within ${counted(days, "day", "days")}`,
  ({ sites }) => (sites === undefined ? null : `seen at ${sitesOf(sites)}`),
];

/** What may be alike and what fields make it so, in the order in which it is said what is mixed. */
const traits: readonly { readonly fields: readonly string[]; readonly words: string }[] = [
  { fields: ["grade", "grades"], words: "grade" },
  { fields: ["first_treatment"], words: "treatment" },
  { fields: ["finger", "fingers"], words: "finger" },
  { fields: ["age"], words: "age" },
  { fields: ["sex"], words: "sex" },
];

/** What "like you" rests on here, and what it does not. */
export function likeYou({ features }: TalkGroup, { plan }: Results): string {
  const set = criteria.map((criterion) => criterion(plan.who)).filter((words) => words !== null);
  const own = featureWords(features);
  // the grade of the group says more than the grades that the study asks for
  const hasGrade = features.some(({ field }) => field === "grade");
  const asked = hasGrade && plan.who.grades !== undefined ? set.slice(1) : set;
  const clauses = [...own, ...asked];
  const alike = ["a climber with a finger pulley injury", ...clauses].join(", ");
  const held = new Set([...features.map(({ field }) => field), ...Object.keys(plan.who)]);
  const mixed = traits.filter(({ fields }) => !fields.some((field) => held.has(field)));
  return `“Like you” means here: ${alike.replace(", ", " ")}. ${capital(listed([...mixed.map(({ words }) => words), "how hard people climbed"]))} are mixed.`;
}

const months = "January February March April May June July August September October November December".split(
  " ",
);

/** "2021-02" as "February 2021". */
const monthWords = (text: string): string => `${months[Number(text.slice(5, 7)) - 1]} ${text.slice(0, 4)}`;

const dayZero: Readonly<Record<Plan["question"]["clock"], string>> = {
  injury: "injured",
  first_visit: "first seen",
  treatment_start: "first treated",
};

/** How many were counted, and from when they are. */
export function countedWords({ n, persons }: TalkGroup, { follow_up, plan, small_cells }: Results): string {
  if (small_cells.choice === "leave-out")
    return `about ${n} injuries (numbers are rounded to multiples of ${small_cells.smallest}).`;
  const whose = typeof persons === "number" ? ` in ${peopleOf(persons)}` : "";
  return `${counted(n, "injury", "injuries")}${whose}${monthsOf(follow_up.recruited, dayZero[plan.question.clock])}.`;
}

/** The months of the whole study. */
function monthsOf(recruited: Results["follow_up"]["recruited"], what: string): string {
  if (recruited === null) return "";
  const { from, to } = recruited;
  return from === to
    ? `, ${what} in ${monthWords(from)}`
    : `, ${what} between ${monthWords(from)} and ${monthWords(to)}`;
}
