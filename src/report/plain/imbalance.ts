import { labelOf } from "../../schema/labels.js";
import type { Results } from "../../study/results.js";
import { characteristics, noticeable } from "../../words/figures/balance.js";
import { groupWords } from "../../words/group-phrases.js";
import { listed } from "../../words/phrases.js";
import { sectionName } from "../../words/sections.js";
import { digitsOf } from "../../words/units.js";

/** So many characteristics are named; the table has the others. */
const named = 3;

/** By what the groups differed at the start that no figure is adjusted for, the largest first: one sentence a group. */
export function imbalanceSentences({ cohort, plan }: Results): string[] {
  const { adjust_for, by } = plan.compare;
  const free = characteristics(cohort).filter(
    ({ variable }) => !(adjust_for as readonly string[]).includes(variable),
  );
  return cohort.groups.flatMap(({ label }, i) => {
    if (label === cohort.reference) return [];
    const apart = free
      .map(({ variable, standardised_differences }) => ({
        variable,
        size: Math.abs(standardised_differences[i] ?? 0),
      }))
      .filter(({ size }) => size > noticeable)
      .toSorted((one, other) => other.size - one.size);
    if (apart.length === 0) return [];
    const told = apart
      .slice(0, named)
      .map(({ variable, size }) => `${labelOf(variable)} (${digitsOf(size, { unit: "standardised" })})`);
    const others = apart.length - told.length;
    const rest = others > 0 ? [`${others} more in the section ${sectionName("cohort")}`] : [];
    const wordsOf = (group: string) => groupWords({ by, label: group }).of;
    return [
      `Injuries ${wordsOf(label)} and ${wordsOf(cohort.reference)} differed at the start in what no figure of the return is adjusted for (standardised difference in brackets): ${listed([...told, ...rest])}.`,
    ];
  });
}
