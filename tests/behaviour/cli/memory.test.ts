import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { folderWith, soundSheet, soundStudy } from "./run-command.js";

const main = fileURLToPath(new URL("../../../dist/command/main.js", import.meta.url));

/** Runs the command where the engine may use so many megabytes for its objects. */
function commandWithin(megabytes: number, folder: string, ...words: readonly string[]) {
  return spawnSync(process.execPath, [`--max-old-space-size=${megabytes}`, main, ...words], {
    cwd: folder,
    encoding: "utf8",
  });
}

const [header = "", ...rows] = soundSheet.trimEnd().split("\n");
const large = [
  header,
  ...Array.from({ length: 20_000 }, (_, place) =>
    rows[place % rows.length]!.replace(/^P\d+/, `P${String(place).padStart(5, "0")}`),
  ),
].join("\n");

describe("too little memory", () => {
  it.each([
    ["check", ["check", "study.yaml"]],
    ["report", ["report", "study.yaml"]],
    ["fit", ["fit", "sheet.csv", "--no-questions"]],
  ])("%s says what is needed and how to go on, with exit code 3 and no dump", (_, words) => {
    const folder = folderWith({ "sheet.csv": large, "study.yaml": soundStudy });
    const { status, stderr, stdout } = commandWithin(24, folder, ...words);
    expect(stderr).toMatch(
      /^The command ran out of memory: it may use \d+ MB\.\n {2}About \d+ MB are needed for "sheet\.csv" \(2 MB\)\./,
    );
    expect(stderr).toContain("--max-old-space-size=");
    expect(stderr).toContain("check FILE --table NAME");
    expect(`${stderr}${stdout}`).not.toMatch(/FATAL|Last few GCs|at .*\.js/);
    expect(status).toBe(3);
  });

  it("what fits goes on as ever, though it ran in a process of its own", () => {
    const folder = folderWith({ "sheet.csv": soundSheet, "study.yaml": soundStudy });
    const little = commandWithin(150, folder, "check", "study.yaml");
    const much = commandWithin(2_000, folder, "check", "study.yaml");
    expect(little.stdout).toContain("4 rows read = 4 used");
    expect([little.status, little.stdout, little.stderr]).toEqual([much.status, much.stdout, much.stderr]);
  });

  it("the process that only waits starts no thread to draw in", () => {
    const folder = folderWith({ "sheet.csv": soundSheet, "study.yaml": soundStudy });
    const told = `
      import { syncBuiltinESMExports } from "node:module";
      import threads from "node:worker_threads";
      const { Worker } = threads;
      const who = process.env.PULLEY_OUTCOMES_OWN_PROCESS === undefined ? "waiting" : "working";
      threads.Worker = class extends Worker {
        constructor(...words) {
          process.stdout.write("a thread of the " + who + " process\\n");
          super(...words);
        }
      };
      syncBuiltinESMExports();`;
    const hook = `data:text/javascript,${encodeURIComponent(told)}`;
    const words = ["--max-old-space-size=200", "--import", hook, main, "report", "study.yaml"];
    const { status, stdout } = spawnSync(process.execPath, words, { cwd: folder, encoding: "utf8" });
    expect(status).toBe(0);
    expect(stdout).toContain("a thread of the working process");
    expect(stdout).not.toContain("a thread of the waiting process");
  });
});
