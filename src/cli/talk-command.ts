import type { Command } from "commander";
import type { ExitCode } from "./exit-codes.js";
import { terminal } from "./terminal.js";

/** Adds the verb that writes a page to talk over. */
export function addTalk(program: Command, run: (done: Promise<ExitCode>) => Promise<void>): void {
  program
    .command("talk")
    .argument("<from>", "a study file, or a report folder")
    .option("--for <group>", "what the page is about, as --list shows it", "all injuries")
    .option(
      "--into <file>",
      "file for the page; by default named after the group, beside the study file or the folder",
    )
    .option("--list", "list what a page can be about, and why not; write nothing")
    .option("--replace", "replace an earlier page of that name")
    .description("write a page to talk over with a climber: one A4, of 20 so many were back by which week")
    .addHelpText(
      "after",
      `
The page shows, for one group, how many of 20 climbers were back by each week, as rows of dots: filled as estimated, striped
where the confidence interval leaves it open. It says on what "like you" rests, what else happened, and what it cannot say.
It is general information about a group of past patients. It compares no treatments: what people got was not drawn by lot.
No page is made for fewer than 20 injuries, where sites define the return differently, or where follow-up does not reach;
the message then says why. Counts of fewer than five people are not written on it, since it leaves the clinic; some can be
found by subtraction. A page from a report written with --small-cells leave-out holds none.
  pulley-outcomes talk my-audit/study.yaml --list
  pulley-outcomes talk my-audit/study.yaml --for "grade 3"
  pulley-outcomes talk my-audit/report --for "grade 3, ring" --into for-the-next-visit.html`,
    )
    .action(async (from, options) => run((await import("./verbs/talk.js")).talk(from, options, terminal)));
}
