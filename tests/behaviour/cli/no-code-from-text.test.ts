import { spawnSync } from "node:child_process";
import { cpSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { folderWith, soundSheet, soundStudy } from "./run-command.js";

const several = fileURLToPath(new URL("several-commands.mjs", import.meta.url));
const cohort = fileURLToPath(new URL("../../../synthetic-data/one-clinic", import.meta.url));

/** Several commands on an engine that makes no code out of texts, in one process. */
function strict(folder: string, ...commands: readonly (readonly string[])[]) {
  const words = ["--disallow-code-generation-from-strings", several, JSON.stringify(commands)];
  const { status, stdout, stderr } = spawnSync(process.execPath, words, { cwd: folder, encoding: "utf8" });
  expect([status, stderr]).toEqual([0, ""]);
  return JSON.parse(stdout) as readonly { readonly code: number; readonly stderr: string }[];
}

describe("an engine that makes no code out of texts", () => {
  it("runs every command", () => {
    // every chart is drawn once, of the cohort that has them all; what else a command does, a small sheet shows
    const others = soundSheet.split("\n").slice(1).join("\n").replaceAll("P0", "Q0");
    const folder = folderWith({ "small.yaml": soundStudy, "sheet.csv": `${soundSheet}${others}` });
    cpSync(cohort, join(folder, "cohort"), { recursive: true });
    const study = "cohort/study.yaml";
    const [begun, fitted, checked, reported, ...rest] = strict(
      folder,
      ["begin", "begun"],
      ["fit", "cohort/synthetic-single-sheet.csv", "--no-questions"],
      ["check", study, "--queries", "queries.csv"],
      ["report", study, "--into", "report"],
      ["report", "small.yaml", "--into", "left", "--small-cells", "leave-out"],
      ["recompute", "left", "--study", "small.yaml"],
      ["share", study, "--into", "shared"],
      ["deposit", study, "--into", "archive"],
      ["invent", "cohort/scenario.yaml", "--into", "trial"],
    );
    for (const clean of [begun, reported]) expect(clean).toEqual({ code: 0, stderr: "" });
    for (const read of [fitted, checked]) expect(read!.code).toBeLessThan(2);
    expect(rest.map(({ code }) => code)).toEqual([0, 0, 0, 0, 0]);
  }, 240_000);

  it("would stop at code made out of a text", () => {
    const words = ["--disallow-code-generation-from-strings", "-e", "new Function('return 1')"];
    const { status, stderr } = spawnSync(process.execPath, words, { encoding: "utf8" });
    expect(status).not.toBe(0);
    expect(stderr).toContain("Code generation from strings disallowed");
  });
});
