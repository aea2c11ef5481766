import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { command, filesIn, folderWith, soundSheet, soundStudy } from "./run-command.js";

const start = () => folderWith({ "study.yaml": soundStudy, "sheet.csv": soundSheet });

describe("depositing a study", () => {
  it("writes the tables, the time-to-event dataset, what describes them, and where every row went", async () => {
    const folder = start();
    const { code, stdout, stderr } = await command(folder, "deposit", "study.yaml", "--into", "archive");
    expect(code, stderr).toBe(0);
    expect(filesIn(join(folder, "archive"))).toEqual([
      "README.md",
      "account.csv",
      "adtte-variables.csv",
      "adtte.csv",
      "csv-metadata.json",
      "datapackage.json",
      "disclosure.html",
      "disclosure.json",
      "injuries.csv",
      "manifest.json",
      "treatments.csv",
    ]);
    expect(stdout).toContain("ADTTE FULLCLMB: 4 injuries = 4 records + 0 left out");
    for (const path of filesIn(join(folder, "archive")).filter((each) => /\.(csv|html|md)$/.test(each))) {
      expect(readFileSync(join(folder, "archive", path), "utf8"), path).not.toMatch(/P0[1-4]|2024-0/);
    }
    // row P01: back on day 91; row P03: not back at the last contact on day 173, told to the week in so short a study
    const rows = readFileSync(join(folder, "archive/adtte.csv"), "utf8");
    expect(rows).toMatch(/FULLCLMB,Time to Full Climbing \(days\),2,91,90,91,-1,2000-01-01,,2000-04-01,,0,/);
    expect(rows).toMatch(
      /FULLCLMB,Time to Full Climbing \(days\),2,(17[0-6]),\1,,-1,2000-01-01,,2000-06-(19|2[0-5]),,1,/,
    );
  });

  it("has real dates only when they are asked for", async () => {
    const folder = start();
    expect((await command(folder, "deposit", "study.yaml", "--into", "archive", "--with-dates")).code).toBe(
      0,
    );
    const rows = readFileSync(join(folder, "archive/adtte.csv"), "utf8");
    expect(rows).toContain("2024-03-04,,2024-06-03");
    expect(rows).not.toContain("P01");
    expect(readFileSync(join(folder, "archive/disclosure.html"), "utf8")).toContain(
      "the real dates leave the site, as requested",
    );
  });
});
