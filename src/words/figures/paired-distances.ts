import { counted } from "../../schema/counted.js";
import { labelOf } from "../../schema/labels.js";
import type { Plan } from "../../study/plan.js";
import type { Results } from "../../study/results.js";
import { distanceCautionLine } from "../cautions.js";
import { isTold, sumOf } from "../counts.js";
import { estimateWords, intervalName } from "../estimates.js";
import { plainNumber } from "../numbers.js";
import { digitsOf } from "../units.js";
import type { FigureText } from "./figure-text.js";
import { comparedNames } from "./group-names.js";

export type Distances = NonNullable<Results["distances"]>;

/** What the figure of distances before and after is about. */
export interface DistancesShown {
  readonly distances: Distances;
  readonly plan: Plan;
}

export const noPairs = "no injury with two readings";
export const readingTitles = ["first reading", "last reading"] as const;
export const shortReadingTitles = ["first", "last"] as const;
export const thresholdLabel = (threshold: number): readonly string[] => [
  `above ${plainNumber(threshold)} mm`,
  "called complete",
];

export const meanChangeTitle = "mean change, mm";

/** Title, subtitle, text alternative and notes of the figure of distances before and after. */
export function distancesText({ distances, plan }: DistancesShown): FigureText {
  const { pulley, position, groups, injuries_with_both, injuries_with_baseline, threshold_mm } = distances;
  const readings = `${labelOf(position)} position`;
  const shown = distances.pairs.length;
  const names = comparedNames(plan);
  const read = sumOf(groups.map(({ n }) => n));
  return {
    id: "paired-distances",
    title: `How did the tendon-phalanx distance at ${pulley} change?`,
    subtitle: `mm, ${readings}; ${injuries_with_both} of ${counted(injuries_with_baseline, "injury", "injuries")} have two readings; mean change with ${intervalName(plan.confidence_level)}`,
    description: [
      `A line for each injury from its first to its last reading, ${readings}.`,
      ...groups.map((group) => groupSentence(group, names.of(group.label))),
      `Threshold: ${plainNumber(threshold_mm)} mm.`,
    ].join(" "),
    notes: [
      `Thin lines: single injuries${isTold(read, (n) => shown < n) ? `, ${shown} of ${read}, evenly chosen by size` : ""}; thick lines: means.`,
      `A distance above ${plainNumber(threshold_mm)} mm is called a complete rupture: common practice, no source.`,
      ...names.notes,
      distanceCautionLine,
    ],
    synthetic: plan.synthetic,
    individual: true,
  };
}

function groupSentence(group: Distances["groups"][number], name: string): string {
  const { n, before_mean, after_mean } = group;
  if (before_mean === null || after_mean === null) return `${name}: ${noPairs}.`;
  const mean = (value: number) => digitsOf(value, { unit: "mm" });
  return `${name}: n = ${n}, mean ${mean(before_mean)} mm first and ${mean(after_mean)} mm last, change ${estimateWords(group.change, "mm")} mm.`;
}
