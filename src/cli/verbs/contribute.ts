import { join } from "node:path";
import { contributionOf } from "../../run/pooling/contribution.js";
import { counted, oneLine } from "../../schema/index.js";
import { tableOfSiteWords } from "../../words/pooling/risk-sets.js";
import { CommandError, type ExitCode, exitCodes } from "../exit-codes.js";
import { pageMachine } from "../machine.js";
import { openStudy } from "../study-input.js";
import type { Terminal } from "../terminal.js";
import { refuseFolder, writeFolder } from "../writing/index.js";

export interface ContributeOptions {
  readonly into: string;
  readonly site?: string;
  readonly smallCells: "write" | "leave-out";
  readonly smallestCell: number;
  readonly riskSets?: number;
  readonly coarserBins?: boolean;
  readonly replace?: boolean;
}

/** Writes a site's summary for a pooled study, and a page on everything that leaves in it. */
export async function contribute(
  study: string,
  options: ContributeOptions,
  terminal: Terminal,
): Promise<ExitCode> {
  const { into, site, smallCells, smallestCell, riskSets, coarserBins = false, replace } = options;
  if (coarserBins && riskSets === undefined)
    throw new CommandError(
      exitCodes.usage,
      "--coarser-bins is about the risk-set table, which was not asked for.\n  Ask for it with --risk-sets DAYS, such as --risk-sets 7.",
    );
  const writing = { replace: replace === true && ("contribution" as const), tell: terminal.say };
  await refuseFolder(into, { inputs: [study], ...writing });
  const input = await openStudy(study, terminal);
  terminal.progress("estimating");
  const choice = smallCells === "write" ? ("written" as const) : smallCells;
  const { summary, files, summaryFile, pageFile } = await contributionOf(
    input,
    {
      ...(site === undefined ? {} : { site }),
      smallCells: { choice, smallest: smallestCell },
      ...(riskSets === undefined ? {} : { riskSets: { binDays: riskSets, coarser: coarserBins } }),
    },
    await pageMachine(),
  );
  await writeFolder(into, files, { inputs: input.paths, ...writing });
  const { groups, comparisons, held_back, agreed, risk_sets } = summary;
  const size = files.find(({ path }) => path === summaryFile)!.content.length;
  terminal.say(
    [
      `A summary of the site "${oneLine(summary.site)}"${input.plan.synthetic ? " (SYNTHETIC data)" : ""}: ${join(into, summaryFile)}`,
      `  What leaves: ${counted(groups.length, "group", "groups")} and ${counted(comparisons.length, "comparison", "comparisons")} with their errors, a description of the site, counts of rows; ${Math.ceil(size / 1000)} kB. No row, no date, no id.`,
      choice === "written"
        ? "  Small cells are written: figures of single people may be in it."
        : `  Held back because too few people are behind it: ${counted(held_back.length, "group, comparison or end", "groups, comparisons or ends")}.`,
      ...(risk_sets === undefined ? [] : tableOfSiteWords(risk_sets).map((line) => `  ${line}`)),
      `  Fingerprint of what all sites are asked: ${agreed.sha256.slice(0, 16)}. The sites of a pool must have the same.`,
      "",
      `Read this before it leaves the site, and give it to the ethics board: ${join(into, pageFile)}`,
      "Law, consent, ethics approval and the rules of your site decide whether it may leave the site.",
      `Whoever coordinates the pool runs: pulley-outcomes pool ${summaryFile} and those of the other sites --into pooled`,
    ].join("\n"),
  );
  return exitCodes.done;
}
