import { labelOf } from "../../schema/labels.js";
import type { Results } from "../../study/results.js";
import { curvesTold } from "./story.js";

/** What no number here can say. */
export function limitSentences(results: Results): string[] {
  const { by } = results.plan.compare;
  const told = curvesTold(results);
  if (told.length === 0) return [];
  if (told[0]?.curve.family !== "compared")
    return [
      results.small_cells.choice === "leave-out"
        ? "Fewer than two groups have enough injuries to be told of one by one; the figures describe past patients and cannot say when one finger is ready."
        : "Fewer than two groups have injuries, so nothing is compared; the figures describe past patients and cannot say when one finger is ready.",
    ];
  const chosen =
    by === "first_treatment"
      ? "Treatments were chosen, not allotted by chance"
      : `The groups by ${labelOf(by)} can differ in much else`;
  return [
    `${chosen}: these numbers cannot show what caused a difference, and they cannot say when one finger is ready.`,
  ];
}
