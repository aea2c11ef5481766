import { labelOf } from "../../schema/labels.js";
import { measureOf } from "../../study/measures/index.js";
import type { Results } from "../../study/results.js";
import { plainNumber } from "../../words/numbers.js";
import { sources } from "../../words/sources.js";

/** How distances were compared; nothing without imaging. */
export function distanceMethods({ distances, effects }: Results): string[] {
  if (distances === null) return [];
  const methods = new Set(
    effects.filter(({ measure }) => measureOf(measure).outcome === "distance").map(({ method }) => method),
  );
  return [
    `First and last reading of the injured finger at ${distances.pulley}, ${labelOf(distances.position)} position; a first reading taken after the first treatment began is no baseline, and leaves the change and the thresholds; the threshold of ${plainNumber(distances.threshold_mm)} mm was fixed in the study file.`,
    `The change in a group: mean of the paired changes with an interval by the t distribution. Shares above a threshold: score interval (${sources.shareInterval}). Where a person has several of the readings, intervals of changes and differences take the readings of a person together, by a bias-reduced variance with Satterthwaite\u2019s degrees of freedom (${sources.reducedBias}), those of shares are based on the effective number of readings (${sources.effectiveSize}).`,
    ...(methods.has("clustered_means")
      ? [
          "Crude difference in change: difference of the two means, with the readings of a person taken together.",
        ]
      : []),
    ...(methods.has("welch")
      ? [`Crude difference in change: difference of two means with unequal variances (${sources.welch}).`]
      : []),
    ...(methods.has("baseline_adjusted_regression")
      ? [
          `Adjusted difference in change: regression of the last reading on the group, the first reading, which guards against regression to the mean (${sources.baseline}), the days between the two and, unless grades are compared, the grade: the difference between injuries of the same grade that began at the same distance and were read after the same time, with one slope for both groups.`,
        ]
      : []),
  ];
}
