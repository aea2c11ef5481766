import { stat } from "node:fs/promises";
import { dirname, join, resolve } from "node:path";
import { fewestInjuries, type TalkChoice, talkChoices, talkMark, talkOver } from "../../report/talk/index.js";
import { counted, oneLine } from "../../schema/index.js";
import { CommandError, type ExitCode, exitCodes } from "../exit-codes.js";
import { sha256 } from "../machine.js";
import { type FoundResults, resultsIn } from "../report-results.js";
import { openStudy } from "../study-input.js";
import type { Terminal } from "../terminal.js";
import { toolkitVersion } from "../version.js";
import { refuseFile, writeNewFile } from "../writing/index.js";

export interface TalkOptions {
  readonly for: string;
  readonly into?: string;
  readonly list?: boolean;
  readonly replace?: boolean;
}

/** Writes a page to talk over with a climber, from a study file or from a report folder; or lists what it can be about. */
export async function talk(from: string, options: TalkOptions, terminal: Terminal): Promise<ExitCode> {
  const isFolder = await stat(from).then(
    (found) => found.isDirectory(),
    () => false,
  );
  const { results, inputs } = isFolder
    ? await resultsIn(from, ", or the study file")
    : await resultsFrom(from, terminal);
  if (options.list === true) {
    terminal.say(listText(talkChoices(results)));
    return exitCodes.done;
  }
  const { fontFaceCss } = await import("../../report/font-files.js");
  const made = await talkOver(results, {
    name: options.for,
    version: toolkitVersion(),
    fontCss: fontFaceCss(),
    sha256,
  });
  if (!made.made) throw refusalOf(made, from);
  const path = options.into ?? join(dirname(isFolder ? resolve(from) : from), made.path);
  const writing = {
    inputs,
    elsewhere: options.replace
      ? "Choose another name with --into"
      : "Choose another name with --into, or add --replace",
    mayReplace: options.replace === true ? (text: string) => text.slice(0, 4_000).includes(talkMark) : null,
  };
  await refuseFile(path, writing);
  await writeNewFile(path, made.page, writing);
  terminal.say(
    [
      `A page to talk over: ${path}${results.plan.synthetic ? " (SYNTHETIC data)" : ""}`,
      `  About ${oneLine(made.name)}. Open it in any browser; it prints on one A4.`,
      "  General information about a group, not advice for one finger. A licensed clinician decides.",
    ].join("\n"),
  );
  return exitCodes.done;
}

async function resultsFrom(study: string, terminal: Terminal): Promise<FoundResults> {
  const { usualSmallestCell } = await import("../../study/small-cells/index.js");
  const { resultsOf } = await import("../../run/build-report.js");
  const input = await openStudy(study, terminal);
  terminal.progress("estimating");
  return {
    results: await resultsOf(input, { choice: "written", smallest: usualSmallestCell }),
    inputs: input.paths,
  };
}

const refusalOf = (
  { why, instead }: { readonly why: string; readonly instead: string },
  from: string,
): CommandError =>
  new CommandError(
    exitCodes.input,
    `No page is made. ${oneLine(why)}\n  ${oneLine(instead)}\n  What a page can be about: pulley-outcomes talk ${from} --list`,
  );

/** What a page can be about; what it cannot be about, by the reason. */
function listText(choices: readonly TalkChoice[]): string {
  const possible = choices.filter(({ whyNot }) => whyNot === null);
  const few = choices.filter(({ whyNot }) => whyNot?.code === "too-few");
  const reasons = choices.flatMap(({ whyNot }) =>
    whyNot === null || whyNot.code === "too-few"
      ? []
      : [`No page: ${oneLine(whyNot.why)} ${oneLine(whyNot.instead)}`],
  );
  const line = ({ name, n }: TalkChoice) => `  "${oneLine(name)}" (${counted(n, "injury", "injuries")})`;
  return [
    possible.length === 0
      ? "There is no group of this study that a page can be about."
      : "A page can be about (--for):",
    ...possible.map(line),
    ...(few.length === 0
      ? []
      : [
          `No page, since it needs ${counted(fewestInjuries, "injury", "injuries")}, of as many people:`,
          ...few.map(line),
        ]),
    ...new Set(reasons),
  ].join("\n");
}
