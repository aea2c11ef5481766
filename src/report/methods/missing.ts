import { isSome } from "../../charts/counts.js";
import type { Results } from "../../study/results.js";
import { weeks } from "../format.js";
import { sources } from "../words/sources.js";

/** How missing values were dealt with, and how the lost were compared with those who stayed. */
export function missingMethods({ missing, lost, plan }: Results): string[] {
  const gaps = missing.fields.some(({ missing: n }) => isSome(n));
  const compared = lost.compared.some(({ rows }) => rows.length > 0);
  return [
    gaps
      ? "Missing values were counted and never filled in: an injury without a value that an adjusted comparison holds equal is left out of that comparison alone."
      : "Nothing had to be filled in.",
    `Lost: last seen before ${weeks(plan.horizon_weeks)}${lost.closing_day_known ? " and before the data were closed" : ""}, with neither the return nor another end; such injuries are censored when last seen.`,
    ...(compared
      ? [
          `Lost beside stayed: standardised differences (${sources.standardisedDifference}), without a test; not given where fewer than ${plan.compare.smallest_group} were lost or stayed.`,
        ]
      : []),
  ];
}
