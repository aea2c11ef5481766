import { type Command, Option } from "commander";
import type { ExitCode } from "./exit-codes.js";
import { binDays, smallestCell } from "./option-values.js";
import { addRound } from "./round-command.js";
import { terminal } from "./terminal.js";

type Run = (done: Promise<ExitCode>) => Promise<void>;

/** Adds the verbs of a study of several sites that pass no rows around. */
export function addPooling(program: Command, run: Run): void {
  addContribute(program, run);
  addPool(program, run);
  addRound(program, run);
  addSql(program, run);
}

function addContribute(program: Command, run: Run): void {
  program
    .command("contribute")
    .argument("<study>", "the study file that all sites of the pool share, with this site's own data")
    .requiredOption("--into <folder>", "a new or empty folder")
    .option("--site <name>", "the site; by default the only one that the tables name")
    .addOption(
      new Option("--small-cells <way>", "counts and figures of few people: leave them out or write them")
        .choices(["leave-out", "write"])
        .default("leave-out"),
    )
    .option("--smallest-cell <people>", "a figure of fewer people than this is not written", smallestCell, 5)
    .option(
      "--risk-sets <days>",
      "also a table of who was at risk and who came back, in bins of so many days (7: weekly)",
      binDays,
    )
    .option("--coarser-bins", "put bins of that table together where counts in them are of few people")
    .option("--replace", "replace an earlier summary in that folder")
    .description("write a site's summary for a pooled study, and a page on everything that leaves in it")
    .addHelpText(
      "after",
      `
The summary is one JSON file: shares back, differences and mean days with their errors, by group and grade, a description
of the site, and counts of its rows. It holds no row, no date and no id. The page shows all of it, what was held back and
why, for an ethics board. All sites of a pool use one study file; title, short name, data and seed may differ.
With --risk-sets the summary also has exact counts by bins of time, group and stratum, none of few people. Tables of sites
add: they give the curve, the log-rank test and the hazard ratio of all rows together, every injury taken on its own. Large
sites can send them weekly; where counts are small, the message says whether a table in coarser bins could leave. Rows in a
database give the same table by standard SQL: pulley-outcomes sql
  pulley-outcomes contribute my-audit/study.yaml --into for-the-pool
  pulley-outcomes contribute my-audit/study.yaml --into for-the-pool --site north --smallest-cell 10
  pulley-outcomes contribute my-audit/study.yaml --into for-the-pool --risk-sets 7 --coarser-bins`,
    )
    .action(async (study, options) =>
      run((await import("./verbs/contribute.js")).contribute(study, options, terminal)),
    );
}

function addPool(program: Command, run: Run): void {
  program
    .command("pool")
    .argument("<summary...>", "summaries of sites, merged summaries, or folders that contribute has written")
    .option("--into <folder>", "a new or empty folder for the pooled report")
    .option("--only-merge <file>", "write the summaries into one file for the next level instead")
    .option("--replace", "replace an earlier pooled report, or merged file, of that name")
    .description("pool the summaries of several sites into a report, without any patient's row")
    .addHelpText(
      "after",
      `
The report holds the pooled answers with confidence and prediction intervals, each site's own beside them, what the sites
mean and how they see their people, and the summaries themselves, from which recompute makes it again. Sites that were not
asked the same are refused, key by key. Summaries may be merged in any order and in several steps: a region can merge its
sites before a country pools its regions.
  pulley-outcomes pool north-summary.json south-summary.json west-summary.json --into pooled
  pulley-outcomes pool north-summary.json south-summary.json --only-merge region.json
  pulley-outcomes pool region.json west-summary.json --into pooled
  pulley-outcomes recompute pooled`,
    )
    .action(async (summaries, options) =>
      run((await import("./verbs/pool.js")).pool(summaries, options, terminal)),
    );
}

function addSql(program: Command, run: Run): void {
  program
    .command("sql")
    .description("print the SQL that makes risk-set tables in a database that holds the linked tables")
    .addHelpText(
      "after",
      `
One statement of standard SQL, for rows that are in a database already: injuries, treatments and visits with the columns of
"begin --form linked". It gives, by site, group, grade and week, the counts that contribute --risk-sets gives for the
question at its head. It checks no small counts: what comes out is to compute from, not to hand on.
  pulley-outcomes sql > risk-sets.sql`,
    )
    .action(async () => run((await import("./verbs/sql.js")).sql(terminal)));
}
