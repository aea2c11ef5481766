/**
 * Measures what a user waits for: a whole report at several sizes (time, peak memory, bytes of the page), and the cold help.
 * Prints a table; figures of one machine mean something only beside others of the same machine.
 */
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { writeFolder } from "../cli/writing/index.js";
import { drawCohort, readScenario, tableText } from "../synthetic/index.js";

const sizes = process.argv.slice(2).map(Number);
const main = fileURLToPath(new URL("../command/main.js", import.meta.url));
const registry = new URL("../../synthetic-data/registry/", import.meta.url);
const text = (name: string) => readFileSync(new URL(name, registry), "utf8");
const folder = mkdtempSync(join(tmpdir(), "pulley-outcomes-measure-"));
const say = (line: string) => process.stdout.write(`${line}\n`);

/** Runs the command in a process of its own; seconds, and the most memory it held. */
function timed(words: readonly string[]): { seconds: number; megabytes: number } {
  const memory = join(folder, "memory");
  const onExit = `import { writeFileSync } from "node:fs"; process.on("exit", () => writeFileSync(${JSON.stringify(memory)}, String(process.resourceUsage().maxRSS)));`;
  const start = performance.now();
  const { status, stderr } = spawnSync(
    process.execPath,
    ["--import", `data:text/javascript,${encodeURIComponent(onExit)}`, main, ...words],
    { encoding: "utf8" },
  );
  if (status !== 0) throw new Error(`${words.join(" ")} ended with ${status}: ${stderr}`);
  return {
    seconds: (performance.now() - start) / 1000,
    megabytes: Number(readFileSync(memory, "utf8")) / 1000,
  };
}

/** Share of the first scans that are repeated: with more, the readings of 100,000 injuries are too many rows for a study. */
const scannedAgain = 0.3;

/** A study of the registry's scenario with that many injuries and three linked tables. */
async function writeStudy(injuries: number, place: string): Promise<void> {
  const scenario = readScenario("scenario.yaml", text("scenario.yaml"));
  const imaging = { ...scenario.imaging, last_share: scannedAgain };
  const cohort = drawCohort({ ...scenario, imaging, injuries });
  const tables = ["injuries", "treatments", "imaging"] as const;
  const study = text("study.yaml")
    .replace(/^ {2}(visits|sites):.*\n/gm, "")
    .replace(/closed_on: .*/, `closed_on: ${cohort.closedOn}`);
  await writeFolder(
    place,
    [
      { path: "study.yaml", content: study },
      ...tables.map((table) => ({
        path: `synthetic-${table}.csv`,
        content: tableText(table, cohort[table]),
      })),
    ],
    { inputs: [], replace: false, tell: () => undefined },
  );
}

const median = (values: readonly number[]): number =>
  [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)]!;
const helps = Array.from({ length: 9 }, () => timed(["--help"]).seconds * 1000);
say(
  `--help, cold: median ${median(helps).toFixed(0)} ms of 9 (${Math.min(...helps).toFixed(0)} to ${Math.max(...helps).toFixed(0)})`,
);
say("| injuries | report, s | peak memory, MB | report.html, bytes |");
say("| --- | --- | --- | --- |");
for (const injuries of sizes.length > 0 ? sizes : [250, 10_000, 100_000]) {
  const place = join(folder, String(injuries));
  await writeStudy(injuries, place);
  const { seconds, megabytes } = timed(["report", join(place, "study.yaml")]);
  const { size } = statSync(join(place, "report", "report.html"));
  say(`| ${injuries} | ${seconds.toFixed(1)} | ${megabytes.toFixed(0)} | ${size} |`);
}
rmSync(folder, { recursive: true, force: true });
