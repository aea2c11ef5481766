import { parseDocument } from "yaml";
import { oneLine } from "../schema/hidden-characters.js";
import { type Scenario, type ScenarioAsWritten, scenarioSchema } from "./scenario.js";

/** A scenario that cannot be used, with every problem at once. */
export class ScenarioError extends Error {
  override readonly name = "ScenarioError";

  constructor(file: string, problems: readonly string[]) {
    super(
      `${file}: the scenario cannot be used. Mend these and run again:\n${problems.map((p) => `  ${oneLine(p)}`).join("\n")}`,
    );
  }
}

/**
 * Reads a scenario file.
 *
 * @param file name of the file, for messages
 * @param text its text, YAML 1.2
 * @returns the scenario with every default filled in
 * @throws ScenarioError naming every field that is wrong, what was found and what it should be
 */
export function readScenario(file: string, text: string): Scenario {
  const document = parseDocument(text, { prettyErrors: true, uniqueKeys: true });
  if (document.errors.length > 0)
    throw new ScenarioError(
      file,
      document.errors.map(({ message }) => `this is not YAML: ${message.split("\n")[0]}`),
    );
  return checked(file, document.toJS() ?? {});
}

/** A scenario with every default filled in. @throws ScenarioError as `readScenario` */
export const completeScenario = (written: ScenarioAsWritten): Scenario => checked("scenario", written);

function checked(file: string, written: unknown): Scenario {
  const outcome = scenarioSchema.safeParse(written);
  if (outcome.success) return outcome.data;
  const problems = outcome.error.issues.map(({ path, message }) => {
    const found = JSON.stringify(valueAt(written, path)) ?? "nothing";
    return `"${path.join(".") || "the whole file"}": ${message}; found ${found}`;
  });
  throw new ScenarioError(file, problems);
}

const valueAt = (written: unknown, path: readonly PropertyKey[]): unknown =>
  path.reduce<unknown>(
    (value, key) => (value as Record<PropertyKey, unknown> | null | undefined)?.[key],
    written,
  );
