import { isTold, sumOf } from "./counts.js";
import { groupNames } from "./group-names.js";
import { estimateWords, looks, numberWords } from "./numbers.js";
import type { PageText } from "./page.js";
import type { PairedDistancesData } from "./paired-distances-data.js";
import { counted, fieldWords, levelWords } from "./words.js";

/** Title, subtitle, text alternative and notes of the figure of distances before and after. */
export function distancesText({ distances, plan }: PairedDistancesData): PageText {
  const { pulley, position, groups, injuries_with_both, injuries_with_baseline, threshold_mm } = distances;
  const title = `How did the distance at ${pulley} change?`;
  const readings = `${fieldWords(position)} position`;
  const subtitle = `tendon-phalanx distance, mm, ${readings}; ${injuries_with_both} of ${counted(injuries_with_baseline, "injury", "injuries")} read twice; mean change with ${levelWords(plan.confidence_level)} interval`;
  const shown = distances.pairs.length;
  const names = groupNames(plan.compare.by, plan.compare.groups);
  const read = sumOf(groups.map(({ n }) => n));
  const means = groups.map(({ label, n, before_mean, after_mean, change }) =>
    before_mean === null || after_mean === null
      ? `${names.of(label)}: no injury with two readings.`
      : `${names.of(label)}: n = ${n}, mean ${numberWords(before_mean, looks.millimetres)} mm first and ${numberWords(after_mean, looks.millimetres)} mm last, change ${estimateWords(change, looks.millimetres)} mm.`,
  );
  return {
    id: "paired-distances",
    title,
    subtitle,
    description: [
      `${title} Tendon-phalanx distance, a line an injury from its first to its last reading, ${readings}.`,
      ...means,
      `Threshold: ${threshold_mm} mm.`,
    ].join(" "),
    notes: [
      `Thin lines: single injuries${isTold(read, (n) => shown < n) ? `, ${shown} of ${read} at even distances of size` : ""}; thick lines: means.`,
      `Complete above ${threshold_mm} mm: common practice, no source.`,
      ...names.notes,
      "General information about a group; a distance alone is no diagnosis.",
    ],
    synthetic: plan.synthetic,
    individual: true,
  };
}
