import type { Results } from "../../study/results.js";
import { isSome } from "../../words/counts.js";
import { sources } from "../../words/sources.js";
import { weeks } from "../../words/times.js";

/** How missing values were dealt with, and how the lost were compared with those who stayed. */
export function missingMethods({
  missing,
  lost,
  loss_bounds: bounds,
  plan,
  known_returns,
}: Results): string[] {
  const gaps = missing.fields.some(({ missing: n }) => isSome(n));
  const compared = lost.compared.some(({ rows }) => rows.length > 0);
  return [
    gaps
      ? "Missing values were counted and never imputed: an injury without a value that a comparison adjusts for is left out of that comparison alone."
      : "There were no missing values.",
    `Lost to follow-up: last observed before ${weeks(plan.horizon_weeks)}${lost.closing_day_known ? " and before the data were closed" : ""}, with neither the return nor another end; such injuries are censored on the last day of contact.`,
    ...(compared
      ? [
          `Those lost compared with those who stayed: standardised differences (${sources.standardisedDifference}), without a test; not given where fewer than ${plan.compare.smallest_group} were lost or stayed.`,
        ]
      : []),
    ...(bounds === null
      ? []
      : [
          `Those lost before ${weeks(bounds.week)}, if they were unlike those followed (${sources.afterLoss}): the rate of return of those lost is multiplied by a factor from the day of their loss on, ${chancesWords(known_returns)}; nothing is drawn at random. Follow-up that ended because the data were closed is taken as independent of the return. Intervals as for the shares and differences as estimated; they take the factor as known.`,
        ]),
  ];
}

/** What everything else is taken to be where those lost are supposed to be unlike those followed. */
function chancesWords({ path }: Results["known_returns"]): string {
  return path === "days"
    ? "all other chances being as estimated in those followed, and the share follows from the chances of each day"
    : "the models of the return and of other ends staying as they were fitted with those lost as last seen, and the share follows from their hazards and from the losses of each day over those still without an end, an end known between two days counting with the chance that it came later";
}
