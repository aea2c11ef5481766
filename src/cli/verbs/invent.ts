import { join } from "node:path";
import { inventCohort, largestSeed, mostInjuries, readScenario } from "../../synthetic/index.js";
import { type ExitCode, exitCodes } from "../exit-codes.js";
import { readSettingsFile } from "../read-input.js";
import type { Terminal } from "../terminal.js";
import { within } from "../within.js";
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
  const injuries = within("--injuries", options.injuries, { from: 1, to: mostInjuries });
  const seed = within("--seed", options.seed, { from: 0, to: largestSeed });
  const writing: FolderOptions = { inputs: [scenarioPath], replace: null, tell: terminal.say };
  await refuseFolder(options.into, writing);
  const name = scenarioPath.split(/[\\/]/).at(-1)!;
  const named = { what: "scenario", by: "on the command line", name, notice: terminal.notice };
  const { text } = await readSettingsFile(scenarioPath, named);
  const scenario = readScenario(name, text);
  terminal.progress("drawing");
  const files = inventCohort({
    ...scenario,
    ...(injuries === undefined ? {} : { injuries }),
    ...(seed === undefined ? {} : { seed }),
  });
  await writeFolder(options.into, files, writing);
  terminal.say(
    [
      `A SYNTHETIC cohort: ${options.into}`,
      ...files.map(({ path }) => `  ${path}`),
      `Write a report on it: pulley-outcomes report ${join(options.into, "study.yaml")}`,
    ].join("\n"),
  );
  return exitCodes.done;
}
