import { checkSettings, type ReadSettings, readSettings } from "../schema/settings/read-settings.js";
import { SettingsError } from "../schema/settings/settings-error.js";
import { type Scenario, type ScenarioAsWritten, scenarioSchema } from "./scenario.js";

/** A scenario that cannot be followed: every problem at once, in the order of the file. */
export class ScenarioError extends SettingsError {
  override readonly name = "ScenarioError";
}

const scenarioFile = { schema: scenarioSchema, what: "the scenario" };

/**
 * Reads a scenario file.
 *
 * @param file name of the file, for messages
 * @param text its text, YAML 1.2
 * @returns the scenario with every default filled in
 * @throws ScenarioError with all problems at once, each with its line and column
 */
export const readScenario = (file: string, text: string): Scenario =>
  whole(file, readSettings<Scenario>(text, scenarioFile));

/** A scenario with every default filled in. @throws ScenarioError as `readScenario`, without lines */
export const completeScenario = (written: ScenarioAsWritten): Scenario =>
  whole("scenario", checkSettings<Scenario>(written, scenarioFile));

function whole(file: string, { value, problems }: ReadSettings<Scenario>): Scenario {
  if (value === null) throw new ScenarioError(file, problems);
  return value;
}
