#!/usr/bin/env node
import { Command, CommanderError, InvalidArgumentError, Option } from "commander";
import { CommandError, type ExitCode, exitCodes, exitCodesInWords } from "./exit-codes.js";
import { clearProgress, terminal } from "./terminal.js";
import { toolkitVersion } from "./version.js";

// Every verb is imported when it is called: the help must answer at once.

const caution = `General information about groups of past patients: not a diagnosis, not treatment advice, not a forecast
for one finger. A licensed clinician decides; local codes, ethics approval and data-protection rules prevail.
Nothing leaves this computer: the tools open no connection.`;

const wholeNumber = (text: string): number => {
  if (!/^\d{1,10}$/.test(text)) throw new InvalidArgumentError("Write a whole number.");
  return Number(text);
};

const program = new Command("pulley-outcomes")
  .description(
    "From a spreadsheet of climbers' finger pulley injuries to a report that anybody can recompute.",
  )
  .version(toolkitVersion(), "-v, --version", "tell the version")
  .helpOption("-h, --help", "tell how it is used")
  .helpCommand(false)
  .showSuggestionAfterError()
  .exitOverride()
  .addHelpText(
    "after",
    `
A first audit:
  pulley-outcomes begin my-audit            a study file and an empty sheet with its columns explained
  pulley-outcomes check my-audit/study.yaml    which rows can be used, and what to mend
  pulley-outcomes report my-audit/study.yaml   the report: open my-audit/report/report.html

${exitCodesInWords}

${caution}`,
  );

const run = (done: Promise<ExitCode>): Promise<void> =>
  done.then((code) => {
    process.exitCode = code;
  });

program
  .command("begin")
  .argument("<folder>", "a new or empty folder")
  .addOption(
    new Option("--form <form>", "one spreadsheet, or five linked tables")
      .choices(["single-sheet", "linked"])
      .default("single-sheet"),
  )
  .description("write a study folder to start from")
  .action(async (folder, options) =>
    run((await import("./verbs/begin.js")).begin(folder, options, terminal)),
  );

program
  .command("check")
  .argument("<study>", "a study file, as my-audit/study.yaml")
  .option("--queries <file>", "also write every doubt as a CSV, for the site to answer")
  .description("read the tables and say what is doubtful, row by row; change nothing")
  .action(async (study, options) => run((await import("./verbs/check.js")).check(study, options, terminal)));

program
  .command("report")
  .argument("<study>", "a study file")
  .option("--into <folder>", "where to write; by default 'report' beside the study file")
  .option("--replace", "replace an earlier report in that folder")
  .description("write a report folder: report.html, results.json, tables, figures, manifest.json")
  .action(async (study, options) =>
    run((await import("./verbs/report.js")).report(study, options, terminal)),
  );

program
  .command("recompute")
  .argument("<folder>", "a report folder")
  .option("--study <file>", "its study file; by default the one beside the folder")
  .description("compute a report anew and say what differs, byte for byte")
  .action(async (folder, options) =>
    run((await import("./verbs/recompute.js")).recompute(folder, options, terminal)),
  );

program
  .command("invent")
  .argument("<scenario>", "a scenario file, as synthetic-data/one-clinic/scenario.yaml")
  .requiredOption("--into <folder>", "a new or empty folder")
  .option("--injuries <number>", "how many injuries, instead of the scenario's number", wholeNumber)
  .option("--seed <number>", "the seed, instead of the scenario's", wholeNumber)
  .description("write a SYNTHETIC cohort whose true effects are known")
  .action(async (scenario, options) =>
    run((await import("./verbs/invent.js")).invent(scenario, options, terminal)),
  );

for (const command of program.commands) command.helpOption("-h, --help", "tell how it is used");

/** Says an error for the person at the terminal, and with which code the command ends. */
function sayError(error: unknown): ExitCode {
  if (error instanceof CommanderError) return error.exitCode === 0 ? exitCodes.done : exitCodes.usage;
  clearProgress();
  if (error instanceof CommandError) {
    process.stderr.write(`${error.message}\n`);
    return error.exitCode;
  }
  if (error instanceof Error && ["PlanError", "StopError", "ScenarioError"].includes(error.name)) {
    process.stderr.write(`${error.message}\nNothing was written.\n`);
    return exitCodes.input;
  }
  const detail = process.env.PULLEY_OUTCOMES_TRACE && error instanceof Error ? `\n${error.stack}` : "";
  process.stderr.write(
    `A fault of the toolkit, not of your data: ${error instanceof Error ? error.message : String(error)}${detail}\nNothing was written.\n`,
  );
  return exitCodes.fault;
}

try {
  await program.parseAsync();
  clearProgress();
} catch (error) {
  process.exitCode = sayError(error);
}
