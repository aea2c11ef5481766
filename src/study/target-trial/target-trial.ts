import type { LinkedInjury, OutcomeRecord } from "../../cohort/record.js";
import type { ExactResults } from "../exact-results.js";
import type { Grouping, Settled } from "../groups.js";
import type { Plan } from "../plan.js";
import type { SoFar } from "../warn.js";
import { fallsShort } from "./falls-short.js";
import { trialGroup } from "./groups.js";
import { otherReadings } from "./other-readings.js";

interface Given {
  readonly linked: readonly LinkedInjury[];
  readonly analysed: readonly OutcomeRecord[];
  readonly groups: Grouping;
  readonly results: Omit<SoFar, "target_trial" | "estimands">;
}

/**
 * The study as the emulation of a trial: when the treatments compared began, what came before and after them, what another rule of
 * the first treatment would give, and where the data fall short of such a trial. Published: Hernán & Robins 2016, Am J Epidemiol 183:758.
 *
 * @returns null where no treatments are compared: nobody could be assigned to a grade or a site
 */
export function targetTrialOf(
  { linked, analysed, groups, results }: Given,
  asked: { readonly plan: Plan; readonly specification: Settled; readonly isPooled: boolean },
): ExactResults["target_trial"] {
  const { specification } = asked;
  if (specification.comparison.by !== "first_treatment") return null;
  const told = groups.groups.map((group) => trialGroup(group, specification));
  return {
    groups: told,
    other_readings: otherReadings({ linked, analysed }, { groups, asked }),
    falls_short: fallsShort({ results, groups: told, analysed, specification }),
  };
}
