import { labelOf } from "../../schema/labels.js";
import type { Results } from "../../study/results.js";
import { nothingCompared } from "../../words/measures.js";
import { warningWords } from "../../words/warnings.js";
import { imbalanceSentences } from "./imbalance.js";
import { curvesTold } from "./story.js";

const pastPatients = "The figures describe past patients and cannot say when one finger is ready.";

/** What no number here can say. */
export function limitSentences(results: Results): string[] {
  const { by } = results.plan.compare;
  const told = curvesTold(results);
  if (told.length === 0) return [];
  if (told[0]?.curve.family === "all")
    return [
      results.small_cells.choice === "leave-out"
        ? `Fewer than two groups have enough injuries to be shown separately. ${pastPatients}`
        : `${nothingCompared} ${pastPatients}`,
    ];
  const chosen =
    by === "first_treatment"
      ? warningWords["not-randomised"].heading
      : `The groups by ${labelOf(by)} can differ in much else`;
  return [
    ...imbalanceSentences(results),
    `${chosen}: these numbers cannot show what caused a difference, and they cannot say when one finger is ready.`,
  ];
}
