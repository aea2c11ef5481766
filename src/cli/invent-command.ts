import type { Command } from "commander";
import type { ExitCode } from "./exit-codes.js";
import { anyNumber } from "./option-values.js";
import { terminal } from "./terminal.js";

/** Adds the verb that writes a synthetic cohort. */
export function addInvent(program: Command, run: (done: Promise<ExitCode>) => Promise<void>): void {
  program
    .command("invent")
    .argument("<scenario>", "a scenario file, such as synthetic-data/one-clinic/scenario.yaml")
    .requiredOption("--into <folder>", "a new or empty folder")
    .option("--injuries <number>", "number of injuries, instead of the scenario's (1 to 100000)", anyNumber)
    .option("--seed <number>", "seed of the random numbers, instead of the scenario's", anyNumber)
    .description("write a SYNTHETIC cohort whose true effects are known")
    .addHelpText(
      "after",
      `
Writes the tables, a study file, the scenario with every default filled in, and truth.json: the effects that a study of
unlimited size would find. Invented data say nothing about patients; every file is marked SYNTHETIC.
  pulley-outcomes invent synthetic-data/one-clinic/scenario.yaml --into trial --injuries 120 --seed 5`,
    )
    .action(async (scenario, options) =>
      run((await import("./verbs/invent.js")).invent(scenario, options, terminal)),
    );
}
