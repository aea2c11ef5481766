import type { KeptCohort } from "../../cohort/index.js";
import { agreedPartOf } from "../../pooling/summary/agreed.js";
import { comparable, termsOfGroups } from "../../schema/covariates.js";
import { labelOf, yamlText } from "../../schema/index.js";
import { groupValue } from "../../study/groups.js";
import type { Plan } from "../../study/plan.js";
import { readPlan } from "../../study/read-plan.js";
import { specificationOf } from "../../study/specification.js";
import { gradeName } from "../../words/curve-families.js";
import type { AskView, Counted, NamedBytes, QuestionChoices } from "./tasks.js";

/** Name of the study file of the workbench. */
export const studyName = "study.yaml";

/** A plan for files that came without a study file; invented data say so in the names of their files. */
export function newPlan(data: Plan["data"], files: readonly { readonly name: string }[]): Plan {
  const synthetic = files.some(({ name }) => /^synthetic/i.test(name));
  const title = "Return to climbing after pulley injuries at our clinic";
  return readPlan(studyName, yamlText({ study: "our-outcomes", title, synthetic, data }));
}

export const choicesOf = ({
  question,
  compare,
  main_landmark_weeks,
  who,
  title,
  data,
}: Plan): QuestionChoices => ({
  milestone: question.milestone,
  clock: question.clock,
  by: compare.by,
  groups: compare.groups,
  reference: compare.reference,
  adjustFor: compare.adjust_for,
  weeks: main_landmark_weeks,
  grades: who.grades ?? [],
  title,
  dateOrder: data.date_order,
  closedOn: data.closed_on ?? null,
});

/**
 * A plan with other choices, read once more as a study file, so that what contradicts itself is told as it is of a file.
 *
 * @throws PlanError
 */
export function withChoices(plan: Plan, change: Partial<QuestionChoices>): Plan {
  const chosen = { ...choicesOf(plan), ...change };
  const { grades: _before, ...who } = plan.who;
  const { closed_on: _closed, ...data } = plan.data;
  const landmarks = plan.landmarks_weeks.includes(chosen.weeks)
    ? plan.landmarks_weeks
    : [...plan.landmarks_weeks, chosen.weeks].sort((one, other) => one - other);
  const written = {
    ...plan,
    title: chosen.title,
    data: {
      ...data,
      date_order: chosen.dateOrder,
      ...(chosen.closedOn === null || chosen.closedOn === "" ? {} : { closed_on: chosen.closedOn }),
    },
    question: { ...plan.question, milestone: chosen.milestone, clock: chosen.clock },
    compare: {
      ...plan.compare,
      by: chosen.by,
      groups: chosen.groups,
      reference: chosen.reference,
      adjust_for: chosen.adjustFor,
    },
    who: { ...who, ...(chosen.grades.length === 0 ? {} : { grades: chosen.grades }) },
    landmarks_weeks: landmarks,
    main_landmark_weeks: chosen.weeks,
  };
  return readPlan(studyName, yamlText(written));
}

/**
 * The question of a study file that several sites share, asked of one's own data. Invented data stay marked as such.
 *
 * @throws PlanError
 */
export function withAgreedQuestion(plan: Plan, { name, bytes }: NamedBytes): Plan {
  const shared = readPlan(name, new TextDecoder().decode(bytes));
  const { study, title, seed } = shared;
  const synthetic = plan.synthetic || shared.synthetic;
  const written = { study, title, ...agreedPartOf(shared), synthetic, data: plan.data, seed };
  return readPlan(studyName, yamlText(written));
}

/** A first question that these injuries can answer: the groups of most injuries, by treatment where it is known. */
export function firstQuestion({ choices, groupsOf }: AskView): Partial<QuestionChoices> {
  const isThere = (term: string) => groupsOf[choices.by]?.some((one) => one.term === term) ?? false;
  if (choices.groups.every(isThere)) return {};
  const by = comparable.find((field) => (groupsOf[field] ?? []).length > 1);
  if (by === undefined) return {};
  const [reference, other] = [...groupsOf[by]!]
    .sort((one, another) => another.n - one.n)
    .map(({ term }) => term);
  const adjustFor = choices.adjustFor.filter((field) => field !== by);
  return { by, reference: reference!, groups: [other!, reference!], adjustFor };
}

/** What can be asked of these injuries: by each field its terms, with how many injuries have them. */
export function askView(plan: Plan, cohort: KeptCohort): AskView {
  // of every grade, so that a further one can be chosen
  const { grades, ...who } = plan.who;
  const { records } = cohort.derived(specificationOf({ ...plan, who }).question);
  const chosen =
    grades === undefined
      ? records
      : records.filter((record) => (grades as readonly string[]).includes(groupValue(record, "grade") ?? ""));
  const groupsOf = Object.fromEntries(
    comparable.map((by) => {
      const counts = new Map<string, number>();
      for (const record of by === "grade" ? records : chosen) {
        const value = groupValue(record, by);
        if (value !== null) counts.set(value, (counts.get(value) ?? 0) + 1);
      }
      const known = termsOfGroups(by) ?? [...counts.keys()].sort();
      const counted: readonly Counted[] = known
        .map((term) => ({
          term,
          label: by === "grade" ? gradeName(labelOf(term)) : labelOf(term),
          n: counts.get(term) ?? 0,
        }))
        .filter(({ n }) => n > 0);
      return [by, counted];
    }),
  );
  return { choices: choicesOf(plan), groupsOf, injuries: chosen.length };
}
