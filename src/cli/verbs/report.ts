import { dirname, join } from "node:path";
import { oneLine } from "../../schema/index.js";
import { buildReport } from "../build-report.js";
import { type ExitCode, exitCodes } from "../exit-codes.js";
import type { Terminal } from "../terminal.js";
import { refuseFolder, writeFolder } from "../writing/index.js";

export interface ReportOptions {
  readonly into?: string;
  readonly replace?: boolean;
}

/** Writes a report folder from a study file, all or nothing. */
export async function report(study: string, options: ReportOptions, terminal: Terminal): Promise<ExitCode> {
  const folder = options.into ?? join(dirname(study), "report");
  const writing = { replace: options.replace === true, tell: terminal.say };
  await refuseFolder(folder, { inputs: [study], ...writing });
  const { files, read, plan, paths } = await buildReport(study, terminal);
  await writeFolder(folder, files, { inputs: paths, ...writing });
  const marked = plan.synthetic ? " (SYNTHETIC data)" : "";
  const setAside = read.accounts.reduce((sum, account) => sum + account.setAside.length, 0);
  terminal.say(
    [
      `${oneLine(plan.title)}${marked}`,
      ...read.accounts.map(
        ({ file, read: rows, used, setAside: aside }) =>
          `  ${oneLine(file)}: ${rows} rows read, ${used} used, ${aside.length} set aside`,
      ),
      ...(setAside > 0 ? [`  Why rows were set aside: pulley-outcomes check ${study}`] : []),
      "",
      `Report:  ${join(folder, "report.html")}  (open it in any browser)`,
      `Numbers: ${join(folder, "results.json")}, ${join(folder, "tables")}`,
      `Figures: ${join(folder, "figures")}`,
      `Recompute it at any time: pulley-outcomes recompute ${folder} --study ${study}`,
    ].join("\n"),
  );
  return exitCodes.done;
}
