import type { Command } from "commander";
import type { ExitCode } from "./exit-codes.js";
import { terminal } from "./terminal.js";

/** Adds the verb that seals what a study asks, before its data are looked at. */
export function addSeal(program: Command, run: (done: Promise<ExitCode>) => Promise<void>): void {
  program
    .command("seal")
    .argument("<study>", "a study file; no table is opened")
    .requiredOption("--on <day>", "the day on which it is sealed, as YYYY-MM-DD")
    .option("--into <file>", "file for the sealed plan; by default 'sealed-plan.json' beside the study file")
    .option("--replace", "replace an earlier sealed plan of that name")
    .description("seal what a study asks before its data are looked at, to hand over or deposit")
    .addHelpText(
      "after",
      `
The file holds everything the study file asks (question, groups, what is adjusted for, horizon, landmarks, level, seed), with
every default filled in, and a fingerprint of it. The clock is not asked: the day is the one that you state, so that the same
study file gives the same bytes. Give the file, or the fingerprint, to somebody who can say later when it was received.
Then name it in the study file:
  sealed: sealed-plan.json
Every later report says key by key whether it asks what was sealed, and what was changed afterwards. An altered file is refused.
  pulley-outcomes seal my-audit/study.yaml --on 2026-01-05`,
    )
    .action(async (study, options) => run((await import("./verbs/seal.js")).seal(study, options, terminal)));
}
