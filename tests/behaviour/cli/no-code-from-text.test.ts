import { spawnSync } from "node:child_process";
import { cpSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { folderWith } from "./run-command.js";

const main = fileURLToPath(new URL("../../../dist/cli/main.js", import.meta.url));
const cohort = fileURLToPath(new URL("../../../synthetic-data/one-clinic", import.meta.url));

/** The command on an engine that makes no code out of texts. */
function strict(folder: string, ...words: readonly string[]) {
  const found = spawnSync(process.execPath, ["--disallow-code-generation-from-strings", main, ...words], {
    cwd: folder,
    encoding: "utf8",
  });
  return { code: found.status, stderr: found.stderr };
}

describe("an engine that makes no code out of texts", () => {
  it("runs every command", () => {
    const folder = folderWith({});
    cpSync(cohort, join(folder, "cohort"), { recursive: true });
    const study = "cohort/study.yaml";
    expect(strict(folder, "begin", "begun")).toEqual({ code: 0, stderr: "" });
    expect(strict(folder, "fit", "cohort/synthetic-single-sheet.csv", "--no-questions").code).toBeLessThan(2);
    expect(strict(folder, "check", study, "--queries", "queries.csv").code).toBeLessThan(2);
    expect(strict(folder, "report", study, "--into", "report")).toEqual({ code: 0, stderr: "" });
    expect(strict(folder, "recompute", "report", "--study", study)).toEqual({ code: 0, stderr: "" });
    expect(strict(folder, "report", study, "--into", "left", "--small-cells", "leave-out").code).toBe(0);
    expect(strict(folder, "share", study, "--into", "shared").code).toBe(0);
    expect(strict(folder, "deposit", study, "--into", "archive").code).toBe(0);
    expect(strict(folder, "invent", "cohort/scenario.yaml", "--into", "trial").code).toBe(0);
  }, 240_000);

  it("would stop at code made out of a text", () => {
    const words = ["--disallow-code-generation-from-strings", "-e", "new Function('return 1')"];
    const { status, stderr } = spawnSync(process.execPath, words, { encoding: "utf8" });
    expect(status).not.toBe(0);
    expect(stderr).toContain("Code generation from strings disallowed");
  });
});
