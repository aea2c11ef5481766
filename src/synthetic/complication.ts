import type { Complication } from "../schema/terms.js";
import type { Generator } from "../statistics/shared/random.js";
import { happens } from "./chance.js";
import type { DrawnInjury } from "./injury.js";
import type { Scenario } from "./scenario.js";

/** What can follow any of the treatments. */
const kinds = ["stiffness", "fixed_flexion", "tenosynovitis"] as const satisfies readonly Complication[];

/**
 * At which contact a complication is found, and which, each kind and each contact after the first as likely as the others. Nothing is drawn
 * where the scenario has none, nor where there is one contact only.
 *
 * @returns null where none is found
 */
export function complicationAt(
  {
    scenario,
    drawn: { course, followUp },
  }: { readonly scenario: Scenario; readonly drawn: Pick<DrawnInjury, "course" | "followUp"> },
  generator: Generator,
): { readonly visit: number; readonly complication: Complication } | null {
  const share = scenario.ends.complication_share[course.treatment];
  const later = followUp.visits.length - 1;
  if (share === 0 || later === 0 || !happens(share, generator)) return null;
  return { visit: 1 + generator.integer(later), complication: kinds[generator.integer(kinds.length)]! };
}
