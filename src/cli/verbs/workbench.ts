import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { CommandError, type ExitCode, exitCodes } from "../exit-codes.js";
import type { Terminal } from "../terminal.js";
import { refuseFile, writeNewFile } from "../writing/index.js";

export interface WorkbenchOptions {
  readonly into: string;
  readonly replace?: boolean;
}

/** Beside the compiled code, as the build made it. */
const page = new URL("../../workbench.html", import.meta.url);

/** A title that only this page has. */
const title = "<title>Workbench: outcomes of finger pulley injuries</title>";

/** Writes the workbench, one page that needs no terminal. */
export async function workbench(options: WorkbenchOptions, terminal: Terminal): Promise<ExitCode> {
  const writing = {
    inputs: [],
    elsewhere: options.replace
      ? "Choose another name with --into"
      : "Choose another name with --into, or add --replace",
    mayReplace: options.replace === true ? (text: string) => text.slice(0, 4_000).includes(title) : null,
  };
  await refuseFile(options.into, writing);
  const content = await readFile(page).catch(() => {
    throw new CommandError(
      exitCodes.fault,
      "The workbench is not part of this copy of the toolkit: run npm run build.",
    );
  });
  await writeNewFile(options.into, content, writing);
  terminal.say(
    [
      `Workbench: ${join(options.into)}  (open it in any current browser; it needs no connection)`,
      "  Give the file to whoever has the data: it takes a spreadsheet to a report, and nothing leaves it by itself.",
    ].join("\n"),
  );
  return exitCodes.done;
}
