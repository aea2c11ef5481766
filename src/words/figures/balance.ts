import { labelOf } from "../../schema/labels.js";
import type { Plan } from "../../study/plan.js";
import type { CohortRow, Count, Results } from "../../study/results.js";
import { digitsOf } from "../units.js";
import type { FigureText } from "./figure-text.js";
import { type GroupNames, groupNames } from "./group-names.js";

/** What the figure of the groups' characteristics is about. */
export interface BalanceShown {
  readonly cohort: Results["cohort"];
  readonly plan: Plan;
}

export const standardisedTitle = "standardised difference";
export const notComputed = "not computed";
export const nothingToBalance = "No characteristic to compare.";

/** Beyond it groups are said to differ in a characteristic. */
export const noticeable = 0.1;
export const noticeableLine = `Beyond ${noticeable} in either direction groups are often called dissimilar (common practice, no source).`;

/** A line of the legend. */
export const legendOf = ({ label, n, reference }: { label: string; n: Count; reference: string }): string =>
  `${label} (n = ${n}) compared with ${reference}`;

export const balanceNames = ({ cohort, plan }: BalanceShown): GroupNames =>
  groupNames({ by: cohort.by, labels: cohort.groups.map(({ label }) => label) }, plan);

/** The rows that hold the differences: the first of each characteristic that can differ. One site is alike in all groups. */
export const characteristics = ({ rows }: Results["cohort"]): readonly CohortRow[] =>
  rows.filter(
    ({ variable }, i) =>
      variable !== rows[i - 1]?.variable &&
      (variable !== "site_id" || rows.filter((row) => row.variable === variable).length > 1),
  );

/** Whether there are two groups and something known of both. */
export const isSomethingToBalance = ({ cohort }: Pick<Results, "cohort">): boolean =>
  characteristics(cohort).some(({ standardised_differences: differences }) =>
    differences.some((difference) => difference !== null && difference !== undefined),
  );

/** Title, subtitle, text alternative and notes of the figure of the groups' characteristics. */
export function balanceText({ cohort, plan }: BalanceShown): FigureText {
  const names = balanceNames({ cohort, plan });
  const against = `standardised differences from ${names.of(cohort.reference)}`;
  return {
    id: "balance",
    title: "How similar were the groups at the start?",
    subtitle: `${against}, n = ${cohort.overall}`,
    description: [
      `Points of the ${against}, a row for each characteristic.`,
      ...characteristics(cohort).map((row) => rowSentence(row, cohort, names)),
    ].join(" "),
    notes: [`Dashed lines: \u2212${noticeable} and ${noticeable}. ${noticeableLine}`, ...names.notes],
    synthetic: plan.synthetic,
    individual: false,
  };
}

function rowSentence(
  { variable, standardised_differences }: CohortRow,
  { groups, reference }: Results["cohort"],
  names: GroupNames,
): string {
  const values = groups.flatMap(({ label }, i) => {
    if (label === reference) return [];
    const value = standardised_differences[i] ?? null;
    const words = value === null ? notComputed : digitsOf(value, { unit: "standardised" });
    return [`${names.of(label)} ${words}`];
  });
  return `${labelOf(variable)}: ${values.join(", ")}.`;
}
