import type { ExactEffect } from "../exact-results.js";
import type { Pair } from "../pairs.js";
import { countsOf } from "../pairs.js";
import type { Plan } from "../plan.js";

/** What a method adds to what every effect of a pair has in common. */
export type OwnPart = Pick<ExactEffect, "measure" | "unit" | "estimate" | "standard_error" | "p" | "method"> &
  Partial<
    Pick<ExactEffect, "at_day" | "main" | "left_out" | "strata_used" | "n" | "events" | "clustered">
  > & {
    readonly adjusted_for?: readonly string[];
  };

/** One effect, with an id that is the same in every run of the same plan. */
export function effectOf(pair: Pair, plan: Plan, own: OwnPart): ExactEffect {
  const { adjusted_for = [], at_day = null, main = false, left_out = [], strata_used = [] } = own;
  const compared = pair.compared.label;
  const reference = pair.reference.label;
  const adjusted = adjusted_for.length > 0 ? "adjusted" : "crude";
  const place = at_day === null ? "" : `:day-${at_day}`;
  return {
    id: `${own.measure}:${compared}-${reference}${place}:${adjusted}`,
    compared,
    reference,
    level: plan.confidence_level,
    clustered: pair.clustered,
    ...countsOf(pair),
    ...own,
    adjusted_for: [...adjusted_for],
    at_day,
    main,
    strata_used,
    left_out,
  };
}
