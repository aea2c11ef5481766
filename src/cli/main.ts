#!/usr/bin/env node
import { Command, Option } from "commander";
import { tableNames } from "../schema/table-names.js";
import { checkArguments } from "./check-arguments.js";
import type { ExitCode } from "./exit-codes.js";
import { addFrame } from "./frame-command.js";
import { generalHelp } from "./general-help.js";
import { addInvent } from "./invent-command.js";
import { rowNumbers, smallestCell, wholeNumber } from "./option-values.js";
import { OwnProcessNeeded, runInOwnProcess } from "./own-process.js";
import { addPooling } from "./pooling-commands.js";
import { addRecompute } from "./recompute-command.js";
import { codeAfterOutput, sayError } from "./say-error.js";
import { addSeal } from "./seal-command.js";
import { addTalk } from "./talk-command.js";
import { clearProgress, terminal, write } from "./terminal.js";
import { toolkitVersion } from "./version.js";

// Every verb is imported when it is called: the help must answer at once.

const program = new Command("pulley-outcomes")
  .description(
    "From a spreadsheet of climbers' finger pulley injuries to a report that anybody can recompute.",
  )
  .version(toolkitVersion(), "-v, --version", "show the version")
  .helpOption("-h, --help", "show help")
  .helpCommand(false)
  .showSuggestionAfterError()
  .showHelpAfterError(
    "  Show the commands: pulley-outcomes --help. Show the options of one: pulley-outcomes check --help.",
  )
  .exitOverride()
  .configureOutput({ writeOut: write.out, writeErr: write.error })
  .addHelpText("after", generalHelp);

// what share and deposit have in common
const closingWindow = [
  "--closing-window <days>",
  "end records up to this many days before the closing date (28)",
  wholeNumber,
] as const;
const rareCombinations = () =>
  new Option("--rare <way>", "what to do about combinations that fewer people share")
    .choices(["list", "generalise", "suppress"])
    .default("list");

const run = (done: Promise<ExitCode>): Promise<void> =>
  done.then((code) => {
    process.exitCode = code;
  });

program
  .command("begin")
  .argument("<folder>", "a new or empty folder")
  .addOption(
    new Option("--form <form>", "one spreadsheet or five linked tables")
      .choices(["single-sheet", "linked"])
      .default("single-sheet"),
  )
  .description("write a study folder to start from")
  .addHelpText(
    "after",
    `
Writes study.yaml with every choice explained, the tables with their columns but no rows (as CSV, and as .xlsx with
lists to choose from and a note on each column: fill in one of the two), and columns.csv, which explains each column.
Your own spreadsheet can replace a table: save it as CSV with these column names, or use pulley-outcomes fit to
translate its columns.`,
  )
  .action(async (folder, options) =>
    run((await import("./verbs/begin.js")).begin(folder, options, terminal)),
  );

program
  .command("workbench")
  .option("--into <file>", "file for the page", "workbench.html")
  .option("--replace", "replace an earlier workbench of that name")
  .description("write the workbench: one page for a browser that takes a spreadsheet to a report")
  .addHelpText(
    "after",
    `
The page is for people without a terminal. It is opened from the disk, works without a connection, and saves an archive
with the report, the study file, the mapping and the answers, from which recompute makes the same bytes.`,
  )
  .action(async (options) => run((await import("./verbs/workbench.js")).workbench(options, terminal)));

program
  .command("fit")
  .argument("<file>", "a spreadsheet with your own columns: CSV or .xlsx")
  .option("--into <file>", "file for the mapping; by default 'mapping.yaml' beside the spreadsheet")
  .option("--sheet <name>", "sheet of a workbook; by default the one most like the table")
  .option("--header-rows <rows>", "rows of the header, as 3 or 3,4; by default they are found", rowNumbers)
  .option("--mapping <file>", "earlier mapping of the same site; what still fits is kept")
  .option("--codes <file>", "code book: column, code and meaning; in a workbook it is found by itself")
  .addOption(
    new Option("--table <table>", "table that the file contains").choices(tableNames).default("single_sheet"),
  )
  .option("--no-questions", "do not ask; list the open questions in the mapping")
  .option("--replace", "replace an earlier mapping of that name if nobody has changed it since")
  .description("propose how your own columns, words, units and dates are to be read")
  .addHelpText(
    "after",
    `
Reads the column names (English, German, French, Spanish, Italian, Dutch, Polish) and the cells, and writes a mapping
with the evidence for each proposal. What cannot be decided is asked on the terminal, one question at a time, or listed
under "undecided:" in the mapping. Your file is never changed. Name the mapping in the study file (data: mappings): every
later export of the same form is then read with it, and check reports what has changed since.
Exits with 0 if the mapping can be used, and with 1 if questions are open.
  pulley-outcomes fit clinic.xlsx
  pulley-outcomes fit clinic-spring.xlsx --mapping mapping.yaml --into mapping-spring.yaml`,
  )
  .action(async (file, options) => run((await import("./verbs/fit.js")).fit(file, options, terminal)));

program
  .command("check")
  .argument("<study>", "a study file, such as my-audit/study.yaml; with --table, one CSV file of any size")
  .option("--queries <file>", "also write the data queries to a CSV file, for the site to answer")
  .option("--replace", "with --queries: replace a list that exists by one that holds its answers")
  .addOption(
    new Option("--table <name>", "check a single CSV file row by row, as this table").choices(tableNames),
  )
  .addOption(
    new Option("--by <order>", "list the data queries by rule or by person")
      .choices(["rule", "person"])
      .default("rule"),
  )
  .description("read the tables and list the data queries, row by row; change nothing")
  .addHelpText(
    "after",
    `
A data query names the file, the row (as the spreadsheet shows it), the column, what was found, what was expected and how
to correct it. Rows read = rows used + rows set aside.
With --queries, every query becomes a row of a CSV file. The file contains values from the tables: keep it at the site.
Its last columns are for the answers: stands, change (with a new value) or leave-out. Once it is filled in and named in
the study file (data: answers), the answers are applied whenever the data are read; the tables are never changed. If the
list exists, its answers are carried over into the new one, after asking on a terminal, or with --replace; answers whose
row has changed are kept at the end. If anything in it could not be carried over, nothing is written.
Exits with 0 if every row can be used, with 1 if some rows are set aside, and with 3 if a file cannot be used at all.
  pulley-outcomes check my-audit/study.yaml --queries my-audit/answers.csv
  pulley-outcomes check my-audit/study.yaml --by person
With --queries or --by person, every query is kept in memory, about 3 kB each; otherwise 200 of each kind are.
A CSV file of millions of rows needs no study file: it is read row by row, and each row is checked by itself.
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
  .option("--into <folder>", "folder for the report; by default 'report' beside the study file")
  .option("--replace", "replace an earlier report in that folder")
  .addOption(
    new Option("--small-cells <way>", "counts of few people: write them or leave them out")
      .choices(["write", "leave-out"])
      .default("write"),
  )
  .option("--smallest-cell <people>", "a count of fewer people than this is a small cell", smallestCell, 5)
  .description("write a report folder: report.html, results.json, tables, figures, manifest.json")
  .addHelpText(
    "after",
    `
The folder is written whole or not at all. The same study file and tables give the same bytes, anywhere.
  pulley-outcomes report my-audit/study.yaml
  pulley-outcomes report my-audit/study.yaml --into spring-audit --replace
With --small-cells leave-out, no count of fewer than five people is written to any file of the folder: it is replaced by
[left out], all other counts are rounded to multiples of five, curves are given by whole weeks, and figures have fewer
digits.
  pulley-outcomes report my-audit/study.yaml --into for-the-journal --small-cells leave-out`,
  )
  .action(async (study, options) =>
    run((await import("./verbs/report.js")).report(study, options, terminal)),
  );

addSeal(program, run);
addFrame(program, run);
addTalk(program, run);
addPooling(program, run);
addRecompute(program, run);

program
  .command("share")
  .argument("<study>", "a study file")
  .requiredOption("--into <folder>", "new or empty folder for the copy")
  .option(
    "--key <file>",
    "file of the key; by default 'sharing.key' beside the study file, made if it does not exist",
  )
  .addOption(
    new Option(
      "--dates <way>",
      "days from each person's first injury, or dates shifted by a secret number of days",
    )
      .choices(["offsets", "shifted"])
      .default("offsets"),
  )
  .option(
    "--shift-days <days>",
    "with --dates shifted: shift by up to 182, 364, 728 or 1456 days (364)",
    wholeNumber,
  )
  .option(...closingWindow)
  .option("--age-band <years>", "width of the age bands (5)", wholeNumber)
  .option("--oldest <years>", "age from which all ages form one band (90)", wholeNumber)
  .addOption(
    new Option("--body <way>", "body mass and height").choices(["left-out", "banded"]).default("left-out"),
  )
  .option("-k <people>", "number of people who must share a combination of values (5)", wholeNumber)
  .option(
    "--fields <columns>",
    "columns of the injuries whose combinations are counted, separated by commas",
    (text: string) => text.split(",").map((field) => field.trim()),
  )
  .addOption(rareCombinations())
  .option("--keep-order", "keep the order of the rows, which may be their order in time")
  .option("--replace", "replace an earlier copy in that folder")
  .description("write a de-identified copy that may leave the site, and a report on what it discloses")
  .addHelpText(
    "after",
    `
The copy contains the rows that are used. Ids are replaced by keyed names, dates by dates on a separate calendar for each
person (the first injury is on 1 January 2000), ages by age bands; free text is left out. Each record ends on a randomly
drawn day within the last 28 days before the closing date (56, 112 or 224 with --closing-window), so that the closing date
does not disclose the day of an injury. disclosure.html describes what was done, what it cost and what still identifies a
person. It is neither a guarantee nor a permission.

The key is made once, is readable by you alone and must not be in the folder that leaves the site. With the same key, the
same tables give the same bytes.
  pulley-outcomes share my-audit/study.yaml --into for-the-pool
  pulley-outcomes share my-audit/study.yaml --into for-the-pool --replace --rare suppress -k 10
Without --fields, these columns are counted: age_at_injury, sex, hand, finger, grade, site_id (and the year, with shifted
dates). --rare generalise makes whole columns coarser, step by step: first hand and finger, which cost least, then age, in
wider bands, then sex, site and grade; columns that the study compares by or adjusts for come last.
--rare suppress leaves out single cells or a whole injury, together with other cells that would reveal what was left out.`,
  )
  .action(async (study, options) => run((await import("./verbs/share.js")).share(study, options, terminal)));

program
  .command("deposit")
  .argument("<study>", "a study file")
  .requiredOption("--into <folder>", "a new or empty folder")
  .option("--key <file>", "file of the key; by default 'sharing.key' beside the study file")
  .option("--with-dates", "include the real dates, instead of a separate calendar for each person")
  .option(...closingWindow)
  .option("-k <people>", "number of people who must share a combination of values (5)", wholeNumber)
  .addOption(rareCombinations())
  .option("--replace", "replace an earlier deposit in that folder")
  .description("write the cleaned data in open standard formats, for an archive or another program")
  .addHelpText(
    "after",
    `
The deposit contains the rows that are used, de-identified as by share. datapackage.json (Frictionless Data Package 1)
describes every table and column, and csv-metadata.json does the same for CSV on the Web. adtte.csv is a time-to-event
dataset in the structure of CDISC ADaM (CNSR = 0 for an event), and adtte-variables.csv defines its variables. account.csv
shows what became of every row.
  pulley-outcomes deposit my-audit/study.yaml --into archive`,
  )
  .action(async (study, options) =>
    run((await import("./verbs/deposit.js")).deposit(study, options, terminal)),
  );

addInvent(program, run);

for (const command of program.commands) command.helpOption("-h, --help", "show help");

try {
  checkArguments(process.argv.slice(2));
  await program.parseAsync();
  clearProgress();
} catch (error) {
  process.exitCode = error instanceof OwnProcessNeeded ? await runInOwnProcess(error) : sayError(error);
}
process.exitCode = await codeAfterOutput(process.exitCode);
