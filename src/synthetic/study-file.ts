import type { IsoDate } from "../schema/dates.js";
import { plainDefinition } from "../schema/definitions.js";
import { yamlText } from "../schema/settings/yaml-text.js";
import type { Scenario } from "./scenario.js";

const header = `# SYNTHETIC: a study of invented data. It shows how to use the toolkit and says nothing about patients.
# A key that is left out has its default.
`;

/**
 * The study file that goes with a synthetic cohort: ring against tape, adjusted for grade.
 *
 * @param options suffix of the study's name, and where the data lie
 */
export function studyText(
  { scenario, closedOn }: { readonly scenario: Scenario; readonly closedOn: IsoDate },
  { suffix = "", data }: { readonly suffix?: string; readonly data: Readonly<Record<string, string>> },
): string {
  const study = {
    study: `${scenario.name}${suffix}`,
    title: scenario.title,
    synthetic: true,
    data: { ...data, closed_on: closedOn },
    question: { milestone: "full_climbing", clock: "injury", ...definitionsOf(scenario) },
    compare: { by: "first_treatment", groups: ["ring", "tape"], reference: "tape", adjust_for: ["grade"] },
    horizon_weeks: 26,
    main_landmark_weeks: 13,
    seed: 1,
  };
  return header + yamlText(study);
}

/** Sites may word the return differently: each is drawn alike, so that invented ones may be counted together. */
function definitionsOf({ sites }: Scenario): { readonly definitions?: "may_differ" } {
  const meanings = new Set(sites.map(({ definition_full }) => plainDefinition(definition_full)));
  return meanings.size > 1 ? { definitions: "may_differ" } : {};
}
