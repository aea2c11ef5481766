import { readdir, stat } from "node:fs/promises";
import { join } from "node:path";
import { unitedSites } from "../../pooling/pooled/unite.js";
import { mergedFormat, type ReadSummary, summariesText } from "../../pooling/summary/read-summaries.js";
import { summaryFormat } from "../../pooling/summary/site-summary.js";
import { pooledReport } from "../../run/pooling/pooled-report.js";
import { largestSummaries, summariesInFile } from "../../run/pooling/summaries-in-file.js";
import { counted } from "../../schema/index.js";
import { answerSentences, mainAnswers } from "../../words/pooling/pooled-plain.js";
import { CommandError, type ExitCode, exitCodes } from "../exit-codes.js";
import { sha256, thisMachine } from "../machine.js";
import { readInput } from "../read-input.js";
import type { Terminal } from "../terminal.js";
import { refuseFile, refuseFolder, writeFolder, writeNewFile } from "../writing/index.js";

export interface PoolOptions {
  readonly into?: string;
  readonly onlyMerge?: string;
  readonly replace?: boolean;
}

/** Pools summaries of sites into a report, or merges them into one file for the next level. */
export async function pool(
  named: readonly string[],
  options: PoolOptions,
  terminal: Terminal,
): Promise<ExitCode> {
  const { into, onlyMerge } = options;
  if ((into === undefined) === (onlyMerge === undefined))
    throw new CommandError(
      exitCodes.usage,
      "Say what to write: --into FOLDER for a pooled report, or --only-merge FILE for one file of all summaries.",
    );
  const paths = (await Promise.all(named.map(summariesIn))).flat();
  return onlyMerge === undefined
    ? writeReport({ folder: into!, paths }, options, terminal)
    : merge({ file: onlyMerge, paths }, options, terminal);
}

/** A file as it is; of a folder that contribute has written, its summaries. */
async function summariesIn(path: string): Promise<readonly string[]> {
  const isFolder = await stat(path).then(
    (found) => found.isDirectory(),
    () => false,
  );
  if (!isFolder) return [path];
  const found = (await readdir(path)).filter((name) => name.endsWith("-summary.json")).sort();
  if (found.length > 0) return found.map((name) => join(path, name));
  throw new CommandError(
    exitCodes.input,
    `The folder "${path}" holds no summary of a site.\n  Name the files that end in -summary.json, or the folder that "pulley-outcomes contribute" has written.`,
  );
}

async function readAll(paths: readonly string[]): Promise<readonly ReadSummary[]> {
  const read: ReadSummary[] = [];
  for (const path of paths) {
    const bytes = await readInput(path, {
      what: "summary",
      by: "on the command line",
      atMost: largestSummaries,
    });
    read.push(...summariesInFile({ file: path, bytes }, { sha256 }));
  }
  return read;
}

async function writeReport(
  { folder, paths }: { readonly folder: string; readonly paths: readonly string[] },
  { replace }: PoolOptions,
  terminal: Terminal,
): Promise<ExitCode> {
  const writing = { replace: replace === true && ("pooled report" as const), tell: terminal.say };
  await refuseFolder(folder, { inputs: paths, ...writing });
  terminal.progress("reading the summaries");
  const read = await readAll(paths);
  terminal.progress("pooling");
  const { files, results } = await pooledReport(read, await thisMachine());
  await writeFolder(folder, files, { inputs: paths, ...writing });
  const { sites, agreed } = results;
  const first = mainAnswers(results).find(({ of }) => of === "comparison") ?? mainAnswers(results)[0];
  terminal.say(
    [
      `Pooled: ${counted(sites.length, "site", "sites")}${agreed.file.synthetic ? " (SYNTHETIC data)" : ""}`,
      ...(first === undefined ? [] : answerSentences(first, results).map((line) => `  ${line}`)),
      "  General information about groups of past patients, not advice for one finger. A licensed clinician decides.",
      "",
      `Report:  ${join(folder, "report.html")}  (open it in any browser)`,
      `Numbers: ${join(folder, "results.json")}, ${join(folder, "tables")}`,
      `Recompute it at any time: pulley-outcomes recompute ${folder}`,
    ].join("\n"),
  );
  return exitCodes.done;
}

async function merge(
  { file, paths }: { readonly file: string; readonly paths: readonly string[] },
  { replace }: PoolOptions,
  terminal: Terminal,
): Promise<ExitCode> {
  const writing = {
    inputs: paths,
    elsewhere: "Choose another name with --only-merge",
    mayReplace: replace === true ? isOurs : null,
  };
  await refuseFile(file, writing);
  const sites = unitedSites(await readAll(paths));
  await writeNewFile(file, summariesText(sites), writing);
  terminal.say(
    `Merged: ${counted(sites.length, "summary", "summaries")} in ${file}\n  Pool it with others: pulley-outcomes pool ${file} OTHERS --into pooled`,
  );
  return exitCodes.done;
}

const isOurs = (text: string): boolean =>
  [summaryFormat, mergedFormat].some((format) => text.slice(0, 200).includes(`"format": "${format}"`));
