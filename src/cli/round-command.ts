import { type Command, Option } from "commander";
import type { ExitCode } from "./exit-codes.js";
import { smallestCell } from "./option-values.js";
import { terminal } from "./terminal.js";

/** Adds the verb by which sites and a coordinator come to an exact fit over rounds of files. */
export function addRound(program: Command, run: (done: Promise<ExitCode>) => Promise<void>): void {
  program
    .command("round")
    .argument("<from>", "a study file, or the point file whose answers have come in")
    .argument(
      "[files...]",
      "after a study file: the point to answer; after a point file: the answers of all sites",
    )
    .option(
      "--into <file>",
      "file for the point, the answer or the fit; by default named after it, beside <from>",
    )
    .option(
      "--site <name>",
      "with a study file and a point: the site that answers, if its tables name none or several",
    )
    .addOption(
      new Option("--model <model>", "with a study file alone: the model of the fit")
        .choices(["hazards", "accelerated"])
        .default("hazards"),
    )
    .addOption(
      new Option("--ties <rule>", "how several returns on one day are taken, in a fit of hazards")
        .choices(["efron", "breslow"])
        .default("efron"),
    )
    .addOption(
      new Option("--law <law>", "law of the times, in an accelerated fit")
        .choices(["weibull", "exponential", "log-normal", "log-logistic"])
        .default("weibull"),
    )
    .option(
      "--smallest-cell <people>",
      "a site needs so many people beyond one for each parameter to answer, and tells no smaller count; of the coordinator's and a site's own the larger one counts",
      smallestCell,
      5,
    )
    .option("--replace", "replace an earlier file of a round of that name")
    .description(
      "fit one model to the rows of several sites without any row leaving its site, over rounds of files",
    )
    .addHelpText(
      "after",
      `
The coordinator begins a fit from the agreed study file, and sends the point file to every site. Each site answers it from
its own study file: with sums over its people, never with a row. From the answers of all sites the coordinator makes the
next point, until the maximum is there: five to nine rounds. In the last ones sites also send sums over their people of
squared scores and of what each one's deletion changes, and the fit has the same numbers as one regression on all rows,
intervals over people with their correction for few people included.
  pulley-outcomes round agreed.yaml --into round-0.json              the coordinator begins
  pulley-outcomes round study.yaml round-0.json                      a site answers
  pulley-outcomes round round-0.json answer-*.json                   the coordinator goes on
The model has the groups that the study compares and the numbers that it holds equal; in a fit of hazards each site, and
each stratum in it, is compared within itself. With --model accelerated, returns stay between the days between which they
are known.
Each file has a fingerprint of its content and names the file that it follows: what was altered, belongs to another round
or comes from changed tables is refused, and says where. The fingerprint does not prove who wrote a file. The same files give the same
bytes, so that a round can be taken up again at any time. Which sites answer the first round settles who is in the fit.
A site does not answer if it has too few people or returns, or if at the point one person would weigh a million times
another; injuries of a group of very few people at a site are left out there. Where a site drops out midway, go on from
the first point with the first answers of the others, under another name (--into).
Each answer is information about the site's people. The fit says how many numbers left each site in all.`,
    )
    .action(async (from, files, options) =>
      run((await import("./verbs/round.js")).round(from, { files, ...options }, terminal)),
    );
}
