#!/usr/bin/env node
import { Command, Option } from "commander";
import { tableNames } from "../schema/table-names.js";
import { checkArguments } from "./check-arguments.js";
import { type ExitCode, exitCodesInWords } from "./exit-codes.js";
import { anyNumber, rowNumbers, smallestCell, wholeNumber } from "./option-values.js";
import { OwnProcessNeeded, runInOwnProcess } from "./own-process.js";
import { codeAfterOutput, sayError } from "./say-error.js";
import { clearProgress, terminal, write } from "./terminal.js";
import { toolkitVersion } from "./version.js";

// Every verb is imported when it is called: the help must answer at once.

const caution = `General information about groups of past patients: not a diagnosis, not treatment advice, not a forecast
for one finger. A licensed clinician decides; local codes, ethics approval and data-protection rules prevail.
Nothing leaves this computer: the tools open no connection.`;

const program = new Command("pulley-outcomes")
  .description(
    "From a spreadsheet of climbers' finger pulley injuries to a report that anybody can recompute.",
  )
  .version(toolkitVersion(), "-v, --version", "show the version")
  .helpOption("-h, --help", "show help")
  .helpCommand(false)
  .showSuggestionAfterError()
  .exitOverride()
  .configureOutput({ writeOut: write.out, writeErr: write.error })
  .addHelpText(
    "after",
    `
A first audit:
  pulley-outcomes begin my-audit               a study file, an empty sheet, its columns explained
  pulley-outcomes check my-audit/study.yaml    which rows can be used, and what to correct
  pulley-outcomes report my-audit/study.yaml   the report: open my-audit/report/report.html
More on one command: pulley-outcomes report --help

Study files, mappings and scenarios hold at most 1 MB, tables and workbooks at most 300 MB, and a table of a study at
most 250,000 rows; a larger CSV is read as a stream (check FILE --table NAME). Only files on a disk are read: no devices, pipes or sockets.

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
  .addHelpText(
    "after",
    `
Writes study.yaml with every choice explained, the tables with their columns and no rows, and columns.csv, which says
what each column holds. Your own spreadsheet can take the place of a table: save it as CSV under these column names.`,
  )
  .action(async (folder, options) =>
    run((await import("./verbs/begin.js")).begin(folder, options, terminal)),
  );

program
  .command("fit")
  .argument("<file>", "a spreadsheet in your own columns: CSV or .xlsx")
  .option("--into <file>", "where to write the mapping; by default 'mapping.yaml' beside the file")
  .option("--sheet <name>", "which sheet of a workbook; by default the one most like the table")
  .option("--header-rows <rows>", "rows that hold the header, as 3 or 3,4; found by itself", rowNumbers)
  .option("--mapping <file>", "an earlier mapping of the same site: what still fits is kept")
  .addOption(
    new Option("--table <table>", "which of our tables the file is")
      .choices(tableNames)
      .default("single_sheet"),
  )
  .option("--no-questions", "list what cannot be decided in the mapping, instead of asking")
  .option("--replace", "replace an earlier mapping of that name that nobody has changed since")
  .description("propose how your own columns, words, units and dates translate into ours")
  .addHelpText(
    "after",
    `
Reads column names (English, German, French, Spanish, Italian, Dutch, Polish) and cells, and writes a mapping with a
reason for each guess. What cannot be decided is asked on a terminal, one question at a time, or stands under "undecided:" in the
mapping. Your file is never changed. Name the mapping in the study file (data: mappings), and every later export in the
same shape is read by it; what has changed since is said.
Exits with 0 when the mapping can be used, 1 when questions are left.
  pulley-outcomes fit clinic.xlsx
  pulley-outcomes fit clinic-spring.xlsx --mapping mapping.yaml --into mapping-spring.yaml`,
  )
  .action(async (file, options) => run((await import("./verbs/fit.js")).fit(file, options, terminal)));

program
  .command("check")
  .argument("<study>", "a study file, as my-audit/study.yaml; with --table one CSV of any size")
  .option("--queries <file>", "also write every doubt as a CSV, for the site to answer")
  .addOption(
    new Option("--table <name>", "read one CSV by itself, row by row, as this table").choices(tableNames),
  )
  .addOption(
    new Option("--by <order>", "doubts together by rule, or by person")
      .choices(["rule", "person"])
      .default("rule"),
  )
  .description("read the tables and say what is doubtful, row by row; change nothing")
  .addHelpText(
    "after",
    `
Each doubt names file, row (as the spreadsheet shows it), column, what was found, what was expected and how to correct it.
Rows read = rows used + rows set aside. With --queries every doubt becomes a row of a CSV, values included: keep it at
the site. Its last columns are for the answers: stands, change (with a new value) or leave-out. Filled in and named in
the study file as data: answers, they take effect at every later reading; the tables themselves are never changed.
Exits with 0 when every row can be used, 1 when some are set aside, 3 when a file cannot be used at all.
  pulley-outcomes check my-audit/study.yaml --queries my-audit/answers.csv
  pulley-outcomes check my-audit/study.yaml --by person
With --queries and with --by person every doubt is kept in memory, about 3 kB each; otherwise 200 of a kind are.
A CSV of millions of rows needs no study file: it is read as a stream, each row held against itself.
  pulley-outcomes check registry-imaging.csv --table imaging`,
  )
  .action(async (study, options) =>
    options.table === undefined
      ? run((await import("./verbs/check.js")).check(study, options, terminal))
      : run((await import("./verbs/check-table.js")).checkTable(study, options, terminal)),
  );

program
  .command("report")
  .argument("<study>", "a study file")
  .option("--into <folder>", "where to write; by default 'report' beside the study file")
  .option("--replace", "replace an earlier report in that folder")
  .addOption(
    new Option("--small-cells <way>", "counts with few people behind them: write them, or leave them out")
      .choices(["write", "leave-out"])
      .default("write"),
  )
  .option("--smallest-cell <people>", "fewer people than this make a small cell", smallestCell, 5)
  .description("write a report folder: report.html, results.json, tables, figures, manifest.json")
  .addHelpText(
    "after",
    `
The folder is written whole or not at all. The same study file and tables give the same bytes, anywhere.
  pulley-outcomes report my-audit/study.yaml
  pulley-outcomes report my-audit/study.yaml --into spring-audit --replace
With --small-cells leave-out no count with fewer than five people behind it is written in any file of the folder: it is
replaced by [left out], all other counts are rounded to multiples of five, curves tell whole weeks, and figures have fewer
digits.
  pulley-outcomes report my-audit/study.yaml --into for-the-journal --small-cells leave-out`,
  )
  .action(async (study, options) =>
    run((await import("./verbs/report.js")).report(study, options, terminal)),
  );

program
  .command("recompute")
  .argument("<folder>", "a report folder")
  .option("--study <file>", "its study file; by default the one beside the folder")
  .description("compute a report anew and say what differs, byte for byte")
  .addHelpText(
    "after",
    `
Needs the report folder, the study file and the tables it names. Says whether the toolkit's version, an input or a file
of the report differs. Exits with 0 when all is the same, 1 when something differs.
  pulley-outcomes recompute my-audit/report`,
  )
  .action(async (folder, options) =>
    run((await import("./verbs/recompute.js")).recompute(folder, options, terminal)),
  );

program
  .command("share")
  .argument("<study>", "a study file")
  .requiredOption("--into <folder>", "a new or empty folder, which may then leave the site")
  .option(
    "--key <file>",
    "the key; by default 'sharing.key' beside the study file, made when it is not there",
  )
  .addOption(
    new Option(
      "--dates <way>",
      "days from each person's first injury, or dates moved by a secret number of days",
    )
      .choices(["offsets", "shifted"])
      .default("offsets"),
  )
  .option("--shift-days <days>", "with --dates shifted: 182, 364, 728 or 1456 either way (364)", wholeNumber)
  .option("--closing-window <days>", "records end up to so many days before the close (28)", wholeNumber)
  .option("--age-band <years>", "width of the bands of age (5)", wholeNumber)
  .option("--oldest <years>", "ages from here on are one band (90)", wholeNumber)
  .addOption(
    new Option("--body <way>", "body mass and height").choices(["left-out", "banded"]).default("left-out"),
  )
  .option("-k <people>", "how many people must share a combination (5)", wholeNumber)
  .option(
    "--fields <columns>",
    "columns of the injuries whose combinations are counted, with commas between them",
    (text: string) => text.split(",").map((field) => field.trim()),
  )
  .addOption(
    new Option("--rare <way>", "what is done about combinations that fewer share")
      .choices(["list", "generalise", "suppress"])
      .default("list"),
  )
  .option("--keep-order", "leave the rows in their order, which may be the order in time")
  .option("--replace", "replace an earlier copy in that folder")
  .description("write a de-identified copy that may leave the site, and a report on what it discloses")
  .addHelpText(
    "after",
    `
From the rows that are used: ids become keyed names, dates become days on each person's own calendar (1 January 2000 is
the day of the first injury), ages become bands, free text is left out. Each record ends on a day of its own in the last 28
days before the close (56, 112 or 224 with --closing-window), so that the closing date gives no day of an injury away.
disclosure.html says what was done, what it cost, what still identifies. It is no guarantee, and no permission.

The key is made once, for you alone, and must not lie in the folder that leaves. With it the same tables give the same bytes.
  pulley-outcomes share my-audit/study.yaml --into for-the-pool
  pulley-outcomes share my-audit/study.yaml --into for-the-pool --replace --rare suppress -k 10
Without --fields these are counted: age_at_injury, sex, hand, finger, grade, site_id (and the year, with shifted dates).
--rare generalise makes whole columns coarser, step by step: first what costs least (hand, finger), wider bands of age,
then sex, site, grade; what the study compares by or adjusts for comes last.
--rare suppress leaves out single cells, or a whole injury. What would tell them in other columns goes with them.`,
  )
  .action(async (study, options) => run((await import("./verbs/share.js")).share(study, options, terminal)));

program
  .command("deposit")
  .argument("<study>", "a study file")
  .requiredOption("--into <folder>", "a new or empty folder")
  .option("--key <file>", "the key of the keyed names; by default 'sharing.key' beside the study file")
  .option("--with-dates", "leave the real dates in it; else each person has a calendar of their own")
  .option("--closing-window <days>", "records end up to so many days before the close (28)", wholeNumber)
  .option("-k <people>", "how many people must share a combination (5)", wholeNumber)
  .addOption(
    new Option("--rare <way>", "what is done about combinations that fewer share")
      .choices(["list", "generalise", "suppress"])
      .default("list"),
  )
  .option("--replace", "replace an earlier deposit in that folder")
  .description("write the cleaned cohort under open standards, for an archive or another program")
  .addHelpText(
    "after",
    `
The rows that are used, in the form of "share": datapackage.json (Frictionless Data Package 1) describes every table and
column, csv-metadata.json says the same for CSV on the Web, adtte.csv is a time-to-event dataset in the structure of
CDISC ADaM (CNSR = 0 for an event) and adtte-variables.csv defines its variables. account.csv says where every row went.
  pulley-outcomes deposit my-audit/study.yaml --into archive`,
  )
  .action(async (study, options) =>
    run((await import("./verbs/deposit.js")).deposit(study, options, terminal)),
  );

program
  .command("invent")
  .argument("<scenario>", "a scenario file, as synthetic-data/one-clinic/scenario.yaml")
  .requiredOption("--into <folder>", "a new or empty folder")
  .option(
    "--injuries <number>",
    "how many injuries, instead of the scenario's number (1 to 100000)",
    anyNumber,
  )
  .option("--seed <number>", "the seed, instead of the scenario's", anyNumber)
  .description("write a SYNTHETIC cohort whose true effects are known")
  .addHelpText(
    "after",
    `
The tables, a study file, the scenario with every default filled in, and truth.json: the effects that a study of endless
size would find. Invented data say nothing about patients; every file is marked SYNTHETIC.
  pulley-outcomes invent synthetic-data/one-clinic/scenario.yaml --into trial --injuries 120 --seed 5`,
  )
  .action(async (scenario, options) =>
    run((await import("./verbs/invent.js")).invent(scenario, options, terminal)),
  );

for (const command of program.commands) command.helpOption("-h, --help", "show help");

try {
  checkArguments(process.argv.slice(2));
  await program.parseAsync();
  clearProgress();
} catch (error) {
  process.exitCode = error instanceof OwnProcessNeeded ? await runInOwnProcess(error) : sayError(error);
}
process.exitCode = await codeAfterOutput(process.exitCode);
