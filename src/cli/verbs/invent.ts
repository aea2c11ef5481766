import { join } from "node:path";
import { inventCohort, readScenario } from "../../synthetic/index.js";
import { type ExitCode, exitCodes } from "../exit-codes.js";
import { readInput } from "../files.js";
import type { Terminal } from "../terminal.js";
import { type FolderOptions, refuseFolder, writeFolder } from "../writing/index.js";

export interface InventOptions {
  readonly into: string;
  readonly injuries?: number;
  readonly seed?: number;
}

/** Writes a synthetic cohort with its truth from a scenario file. */
export async function invent(
  scenarioPath: string,
  options: InventOptions,
  terminal: Terminal,
): Promise<ExitCode> {
  const writing: FolderOptions = { inputs: [scenarioPath], replace: false, tell: terminal.say };
  await refuseFolder(options.into, writing);
  terminal.progress("drawing");
  const bytes = await readInput(scenarioPath, { what: "scenario", by: "the command line" });
  const name = scenarioPath.split(/[\\/]/).at(-1)!;
  const scenario = readScenario(name, new TextDecoder().decode(bytes));
  const files = inventCohort({
    ...scenario,
    ...(options.injuries === undefined ? {} : { injuries: options.injuries }),
    ...(options.seed === undefined ? {} : { seed: options.seed }),
  });
  await writeFolder(options.into, files, writing);
  terminal.say(
    [
      `A SYNTHETIC cohort: ${options.into}`,
      ...files.map(({ path }) => `  ${path}`),
      `Report on it: pulley-outcomes report ${join(options.into, "study.yaml")}`,
    ].join("\n"),
  );
  return exitCodes.done;
}
