import { dirname, join } from "node:path";
import { counted, oneLine } from "../../schema/index.js";
import type { Results } from "../../study/index.js";
import { buildReport } from "../build-report.js";
import { type ExitCode, exitCodes } from "../exit-codes.js";
import type { Terminal } from "../terminal.js";
import { refuseFolder, writeFolder } from "../writing/index.js";

export interface ReportOptions {
  readonly into?: string;
  readonly replace?: boolean;
  readonly smallCells: "write" | "leave-out";
  readonly smallestCell: number;
}

/** Writes a report folder from a study file, all or nothing. */
export async function report(study: string, options: ReportOptions, terminal: Terminal): Promise<ExitCode> {
  const folder = options.into ?? join(dirname(study), "report");
  const writing = { replace: options.replace === true && ("report" as const), tell: terminal.say };
  await refuseFolder(folder, { inputs: [study], ...writing });
  const choice = options.smallCells === "write" ? "written" : options.smallCells;
  const { files, read, plan, paths, results } = await buildReport(
    study,
    { choice, smallest: options.smallestCell },
    terminal,
  );
  await writeFolder(folder, files, { inputs: paths, ...writing });
  const marked = plan.synthetic ? " (SYNTHETIC data)" : "";
  const setAside = read.accounts.reduce((sum, account) => sum + account.setAside.length, 0);
  terminal.say(
    [
      `${oneLine(plan.title)}${marked}`,
      ...read.accounts.map(
        ({ file, site, read: rows, used, setAside: aside }) =>
          `  ${site === undefined ? "" : `${site}: `}${oneLine(file)}: ${counted(rows, "row", "rows")} read, ${used} used, ${aside.length} set aside`,
      ),
      ...(setAside > 0 ? [`  Why rows were set aside: pulley-outcomes check ${study}`] : []),
      smallCellLine(results.small_cells),
      "",
      `Report:  ${join(folder, "report.html")}  (open it in any browser)`,
      `Numbers: ${join(folder, "results.json")}, ${join(folder, "tables")}`,
      `Figures: ${join(folder, "figures")}`,
      `Recompute it at any time: pulley-outcomes recompute ${folder} --study ${study}`,
    ].join("\n"),
  );
  return exitCodes.done;
}

function smallCellLine({ choice, smallest, found }: Results["small_cells"]): string {
  const few = `fewer than ${smallest} people behind them`;
  if (choice === "leave-out")
    return `  Small cells: none is written; counts with ${few} are left out or made coarser`;
  return `  Small cells: ${counted(found ?? 0, "count, day of a curve or row has", "counts, days of curves or rows have")} ${few} (${smallest} is our choice). Before the report leaves the site, consider --small-cells leave-out.`;
}
