import { readSettings } from "../schema/settings/read-settings.js";
import { type Plan, planSchema } from "./plan.js";
import { contradictionsOf } from "./plan-contradictions.js";
import { PlanError } from "./plan-error.js";

/**
 * Reads a study file.
 *
 * @param file name of the file, for messages
 * @param text its text, YAML 1.2
 * @returns the plan with every default filled in
 * @throws PlanError with all problems at once, each with its line and column
 */
export function readPlan(file: string, text: string): Plan {
  const { value, problems, written, place } = readSettings<Plan>(text, studyFile);
  if (value === null) throw new PlanError(file, problems);
  const contradictions = contradictionsOf(value, written, place);
  if (contradictions.length > 0) throw new PlanError(file, contradictions);
  return withoutSelfAdjustment(value);
}

const whyNotEver =
  "Groups made from what happened later (ever ringed, never operated) would count the time before it as its doing; " +
  'compare by "first_treatment" instead.';

const studyFile = {
  schema: planSchema,
  what: "the study file",
  adviceFor: (found: unknown) => (/ever|never/i.test(String(found)) ? whyNotEver : null),
};

/** The default adjustment for grade makes no sense when grades themselves are compared. */
function withoutSelfAdjustment(plan: Plan): Plan {
  const adjust_for = plan.compare.adjust_for.filter((field) => field !== (plan.compare.by as string));
  return { ...plan, compare: { ...plan.compare, adjust_for } };
}
