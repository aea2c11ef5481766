import { join } from "node:path";
import { pooledReport, summariesFile } from "../../run/pooling/pooled-report.js";
import { largestSummaries, summariesInFile } from "../../run/pooling/summaries-in-file.js";
import { oneLine } from "../../schema/hidden-characters.js";
import { CommandError, type ExitCode, exitCodes } from "../exit-codes.js";
import { sha256, thisMachine } from "../machine.js";
import { outputLines } from "../output-lines.js";
import { readInput } from "../read-input.js";
import type { Terminal } from "../terminal.js";
import { toolkitVersion } from "../version.js";

/** Makes a pooled report again from the summaries in its folder, and says, file by file, what differs. */
export async function recomputePooled(
  { folder, text }: { readonly folder: string; readonly text: string },
  { study }: { readonly study?: string },
  terminal: Terminal,
): Promise<ExitCode> {
  if (study !== undefined)
    throw new CommandError(
      exitCodes.usage,
      "A pooled report is made again from the summaries in its folder.\n  Omit --study.",
    );
  const path = join(folder, summariesFile);
  const bytes = await readInput(path, {
    what: "file of summaries",
    by: "by the manifest of the folder",
    atMost: largestSummaries,
  });
  const read = summariesInFile({ file: path, bytes }, { sha256 });
  const { files } = await pooledReport(read, await thisMachine());
  const expected = new Map(files.map((file) => [file.path, file]));
  const version = (JSON.parse(text) as { readonly toolkit_version: string }).toolkit_version;
  const lines = [
    ...(version === toolkitVersion()
      ? []
      : [`made by version ${version} of the toolkit, recomputed by ${toolkitVersion()}`]),
    ...(await outputLines(folder, expected)),
  ];
  if (lines.length === 0) {
    terminal.say(
      `${folder}: recomputed from ${path}. All ${expected.size} files are the same, byte for byte.`,
    );
    return exitCodes.done;
  }
  terminal.say(
    [`${folder}: recomputed from ${path}. These differ:`, ...lines.map((line) => `  ${oneLine(line)}`)].join(
      "\n",
    ),
  );
  return exitCodes.found;
}
