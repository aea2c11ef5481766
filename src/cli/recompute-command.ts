import type { Command } from "commander";
import type { ExitCode } from "./exit-codes.js";
import { terminal } from "./terminal.js";

/** Adds the verb that computes a report again. */
export function addRecompute(program: Command, run: (done: Promise<ExitCode>) => Promise<void>): void {
  program
    .command("recompute")
    .argument("<folder>", "a report folder")
    .option("--study <file>", "study file of the report; by default the one beside the folder")
    .description("compute a report again and list what differs, byte for byte")
    .addHelpText(
      "after",
      `
Needs the report folder, the study file and the tables that the study file names; of a pooled report the folder alone, which
holds the summaries. Lists whether the version of the toolkit, an input or a file of the report differs. Exits with 0 if
everything is the same, and with 1 if something differs.
  pulley-outcomes recompute my-audit/report
  pulley-outcomes recompute pooled`,
    )
    .action(async (folder, options) =>
      run((await import("./verbs/recompute.js")).recompute(folder, options, terminal)),
    );
}
