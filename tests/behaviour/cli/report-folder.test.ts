import { execFileSync } from "node:child_process";
import {
  appendFileSync,
  cpSync,
  mkdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  truncateSync,
  writeFileSync,
} from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, it } from "vitest";
import { schemaErrors } from "../../json-schemas.js";
import { command, filesIn, folderWith, soundSheet, soundStudy } from "./run-command.js";

describe("a report folder", () => {
  let folder = "";
  beforeAll(async () => {
    folder = folderWith({ "study.yaml": soundStudy, "sheet.csv": soundSheet });
    const { code, stderr } = await command(folder, "report", "study.yaml");
    expect(code, stderr).toBe(0);
  });

  it("holds the page, the numbers, tables, figures and a manifest", () => {
    const files = filesIn(join(folder, "report"));
    for (const path of ["report.html", "results.json", "manifest.json", "study.yaml"])
      expect(files).toContain(path);
    for (const ending of [".svg", ".png", ".csv", ".vl.json"]) {
      expect(files.filter((path) => path.endsWith(ending)).length, ending).toBeGreaterThan(2);
    }
  });

  it("has results and a manifest as their schemas have them", () => {
    expect(schemaErrors(join(folder, "report/results.json"), "results.schema.json")).toEqual([]);
    expect(schemaErrors(join(folder, "report/manifest.json"), "report-manifest.schema.json")).toEqual([]);
    expect(schemaErrors(join(folder, "report/manifest.json"), "results.schema.json")).not.toEqual([]);
  });

  it("recomputes to the same bytes", async () => {
    const { code, stdout } = await command(folder, "recompute", "report");
    expect(stdout).toContain("the same, byte for byte");
    expect(stdout).not.toContain("made with");
    expect(code).toBe(0);
  });

  it("names the engine on one line of the manifest, and nowhere else", () => {
    const engine = `node ${process.versions.node} on ${process.platform} ${process.arch}`;
    const naming = filesIn(join(folder, "report"))
      .filter((path) => path.includes("."))
      .filter((path) => readFileSync(join(folder, "report", path)).includes(process.versions.node));
    expect(naming).toEqual(["manifest.json"]);
    const lines = readFileSync(join(folder, "report/manifest.json"), "utf8").split("\n");
    expect(lines.filter((line) => line.includes("node"))).toEqual([`  "engine": "${engine}",`]);
  });

  it("made with another engine recomputes; where files differ the engines are named as a possible cause", async () => {
    const moved = folderWith({ "study.yaml": soundStudy, "sheet.csv": soundSheet });
    cpSync(join(folder, "report"), join(moved, "report"), { recursive: true });
    const path = join(moved, "report/manifest.json");
    writeFileSync(
      path,
      readFileSync(path, "utf8").replace(/"engine": ".*"/, '"engine": "node 99.1.0 on moon m1"'),
    );
    const same = await command(moved, "recompute", "report");
    expect(same.stdout).toContain("the same, byte for byte");
    expect(same.stdout).toContain(
      `The report was made with node 99.1.0 on moon m1 and recomputed with node ${process.versions.node}`,
    );
    expect(same.code).toBe(0);
    appendFileSync(join(moved, "report/results.json"), " ");
    const changed = await command(moved, "recompute", "report");
    expect(changed.stdout).toContain("results.json differs");
    expect(changed.stdout).not.toContain("manifest.json differs");
    expect(changed.stdout).toMatch(/made with node 99\.1\.0 on moon m1 .* can be the cause/);
    expect(changed.code).toBe(1);
  });

  it("away from its study file: code 3, and how to name it", async () => {
    const away = folderWith({});
    const { code, stderr } = await command(
      away,
      "recompute",
      join(folder, "report"),
      "--study",
      "study.yaml",
    );
    expect([code, stderr]).toEqual([3, expect.stringContaining('"study.yaml" does not exist')]);
    cpSync(join(folder, "report"), join(away, "report"), { recursive: true });
    const unnamed = await command(away, "recompute", "report");
    expect([unnamed.code, unnamed.stderr]).toEqual([3, expect.stringContaining("report --study study.yaml")]);
  });

  it("is the same bytes in another time zone and another place", async () => {
    const other = folderWith({ "elsewhere/study.yaml": soundStudy, "elsewhere/sheet.csv": soundSheet });
    process.env.TZ = "Pacific/Auckland";
    const { code } = await command(other, "report", "elsewhere/study.yaml", "--into", "out");
    delete process.env.TZ;
    expect(code).toBe(0);
    const files = filesIn(join(other, "out")).filter((path) => path.includes("."));
    expect(files).toEqual(filesIn(join(folder, "report")).filter((path) => path.includes(".")));
    for (const path of files) {
      expect(
        readFileSync(join(other, "out", path)).equals(readFileSync(join(folder, "report", path))),
        path,
      ).toBe(true);
    }
  });

  it("says which file was changed, removed or added, and which input changed", async () => {
    const changed = folderWith({ "study.yaml": soundStudy, "sheet.csv": soundSheet });
    cpSync(join(folder, "report"), join(changed, "report"), { recursive: true });
    appendFileSync(join(changed, "report/report.html"), " ");
    rmSync(join(changed, "report/results.json"));
    writeFileSync(join(changed, "report/extra.txt"), "");
    const { code, stdout } = await command(changed, "recompute", "report");
    expect(code).toBe(1);
    for (const line of ["report.html differs", "results.json is missing", "extra.txt does not belong"]) {
      expect(stdout).toContain(line);
    }
    writeFileSync(join(changed, "sheet.csv"), soundSheet.replace("2024-06-03", "2024-06-04"));
    expect((await command(changed, "recompute", "report")).stdout).toContain("input sheet.csv has changed");
  });

  it.skipIf(process.platform === "win32")("says what is no plain file, and reads none of it", async () => {
    const changed = folderWith({ "study.yaml": soundStudy, "sheet.csv": soundSheet });
    const report = join(changed, "report");
    cpSync(join(folder, "report"), report, { recursive: true });
    symlinkSync("/etc/passwd", join(report, "passwd"));
    mkdirSync(join(report, "own"));
    execFileSync("mkfifo", [join(report, "pipe")]);
    rmSync(join(report, "report.html"));
    symlinkSync("/dev/zero", join(report, "report.html"));
    // larger than the engine reads at once, and almost nothing on the disk
    truncateSync(join(report, "results.json"), 5_000_000_000);
    const { code, stdout, stderr } = await command(changed, "recompute", "report");
    expect([code, stderr]).toEqual([1, ""]);
    for (const line of [
      "passwd does not belong to the report",
      "own does not belong to the report",
      "pipe does not belong to the report",
      "report.html is a link, not a file of the report",
      "results.json differs",
    ]) {
      expect(stdout).toContain(line);
    }
  });

  it("with a manifest from elsewhere: no other file is read by it, and its words stay on their line", async () => {
    const changed = folderWith({ "inner/sheet.csv": soundSheet, "other.yaml": soundStudy });
    cpSync(join(folder, "report"), join(changed, "inner/report"), { recursive: true });
    const path = join(changed, "inner/report/manifest.json");
    const manifest = JSON.parse(readFileSync(path, "utf8"));
    manifest.study_file.name = "../other.yaml";
    writeFileSync(path, JSON.stringify(manifest));
    const away = await command(changed, "recompute", "inner/report");
    expect([away.code, away.stderr]).toEqual([3, expect.stringContaining("is not beside the folder")]);
    manifest.study_file.name = "study.yaml";
    manifest.engine = "node 1\nAll is well\u001b[2J";
    writeFileSync(path, JSON.stringify(manifest));
    writeFileSync(join(changed, "inner/study.yaml"), soundStudy);
    const { stdout } = await command(changed, "recompute", "inner/report");
    expect(stdout).toContain(String.raw`made with node 1\nAll is well\u001b[2J and recomputed`);
  });

  it("is replaced whole when asked, and kept when the new run fails", async () => {
    const before = readFileSync(join(folder, "report/results.json"), "utf8");
    expect((await command(folder, "report", "study.yaml", "--replace")).code).toBe(0);
    expect(readFileSync(join(folder, "report/results.json"), "utf8")).toBe(before);
    writeFileSync(join(folder, "sheet.csv"), "");
    expect((await command(folder, "report", "study.yaml", "--replace")).code).toBe(3);
    expect(readFileSync(join(folder, "report/results.json"), "utf8")).toBe(before);
  });
});

describe("beginning a study", () => {
  it.each(["single-sheet", "linked"])(
    "the %s form gives a study file that can be followed and tables to fill",
    async (form) => {
      const folder = folderWith({});
      expect((await command(folder, "begin", "audit", "--form", form)).code).toBe(0);
      const files = filesIn(join(folder, "audit"));
      expect(files).toContain("columns.csv");
      // empty tables are the only thing wrong with it
      const { code, stderr } = await command(folder, "check", "audit/study.yaml");
      expect(code).toBe(3);
      expect(stderr).not.toContain("study.yaml, line");
      expect(stderr).toMatch(/sheet\.csv|injuries\.csv/);
    },
  );
});
