import { readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { wordings } from "../ingest/mapping/sheets.js";
import { workbookBytes } from "../ingest/workbooks.js";
import { command, filesIn, folderWith } from "./run-command.js";

const study = `study: trial
title: SYNTHETIC trial
synthetic: true
data:
  single_sheet: clinic.csv
  mappings:
    single_sheet: mapping.yaml
`;

describe("fit, away from a terminal", () => {
  it("shows what a study would count before anything is written, as the report then counts it", async () => {
    const folder = folderWith({ "clinic.csv": wordings.German, "study.yaml": study });
    const { stdout } = await command(folder, "fit", "clinic.csv");
    expect(stdout.indexOf("What a study would count:")).toBeLessThan(stdout.indexOf("Mapping: mapping.yaml"));
    await command(folder, "report", "study.yaml");
    const { accounting, follow_up } = JSON.parse(
      readFileSync(join(folder, "report", "results.json"), "utf8"),
    );
    const [{ read, used, set_aside }] = accounting.tables;
    expect(stdout).toContain(`  ${read} rows read = ${used} used + ${set_aside} set aside\n`);
    expect(stdout).toContain(
      `  ${accounting.analysis.persons} people, ${accounting.analysis.analysed} injuries\n`,
    );
    expect(stdout).toContain(`  back to full climbing: ${follow_up.milestones} of ${follow_up.n}`);
    expect(stdout).toMatch(/ {2}injured from \d{4}-\d\d-\d\d to \d{4}-\d\d-\d\d; last contact from /);
  });

  it("writes a schema beside the mapping, to which the mapping points, and replaces no other file by it", async () => {
    const folder = folderWith({ "clinic.csv": wordings.German, "mine.schema.json": "{}" });
    await command(folder, "fit", "clinic.csv");
    expect(readFileSync(join(folder, "mapping.yaml"), "utf8")).toContain(
      "\n# yaml-language-server: $schema=./mapping.schema.json\n",
    );
    expect(readFileSync(join(folder, "mapping.schema.json"), "utf8")).toContain('"Unfalldatum"');
    expect(await command(folder, "fit", "clinic.csv", "--into", "mine.yaml")).toMatchObject({ code: 4 });
    expect(filesIn(folder)).toEqual([
      "clinic.csv",
      "mapping.schema.json",
      "mapping.yaml",
      "mine.schema.json",
    ]);
  });

  it("writes a mapping by which check, report and recompute read the file", async () => {
    const folder = folderWith({ "clinic.csv": wordings.German, "study.yaml": study });
    const fitted = await command(folder, "fit", "clinic.csv");
    expect(fitted).toMatchObject({ code: 0, stderr: "" });
    expect(fitted.stdout).toContain("Then check the data: pulley-outcomes check study.yaml");
    const checked = await command(folder, "check", "study.yaml");
    expect(checked.stdout).toContain("clinic.csv (single_sheet): 4 rows read = 4 used + 0 set aside");
    expect(await command(folder, "report", "study.yaml")).toMatchObject({ code: 0 });
    const manifest = readFileSync(join(folder, "report", "manifest.json"), "utf8");
    expect(manifest).toContain('"name": "mapping.yaml"');
    expect(await command(folder, "recompute", "report")).toMatchObject({ code: 0 });
  });

  it("lists what it cannot decide; the mapping is refused until that is answered, and used after", async () => {
    const folder = folderWith({ "clinic.csv": wordings.mixed, "study.yaml": study });
    expect(await command(folder, "fit", "clinic.csv")).toMatchObject({ code: 1 });
    const refused = await command(folder, "check", "study.yaml");
    expect(refused.code).toBe(3);
    expect(refused.stderr).toContain('has no answer yet: What does the column "Back on the wall" contain?');
    const text = readFileSync(join(folder, "mapping.yaml"), "utf8");
    const answered = text.replace("answer:\n", "answer: easy\n").replace("answer:\n", "answer: 4b\n");
    const settled = folderWith({
      "clinic.csv": wordings.mixed,
      "study.yaml": study,
      "mapping.yaml": answered,
    });
    expect((await command(settled, "check", "study.yaml")).stdout).toContain(
      "4 rows read = 4 used + 0 set aside",
    );
  });

  it("overwrites nothing unless told to, and never the file itself", async () => {
    const folder = folderWith({ "clinic.csv": wordings.French, "mapping.yaml": "mine" });
    const refused = await command(folder, "fit", "clinic.csv");
    expect(refused).toMatchObject({ code: 4 });
    expect(readFileSync(join(folder, "mapping.yaml"), "utf8")).toBe("mine");
    // not even when told to, what it did not write
    expect(await command(folder, "fit", "clinic.csv", "--replace")).toMatchObject({ code: 4 });
    expect(readFileSync(join(folder, "mapping.yaml"), "utf8")).toBe("mine");
    rmSync(join(folder, "mapping.yaml"));
    for (const more of [[], ["--replace"]])
      expect(await command(folder, "fit", "clinic.csv", ...more)).toMatchObject({ code: 0 });
    expect(readFileSync(join(folder, "clinic.csv"), "utf8")).toBe(wordings.French);
    expect(filesIn(folder)).toEqual(["clinic.csv", "mapping.schema.json", "mapping.yaml"]);
    // nor a mapping in which somebody has answered since
    const answered = `${readFileSync(join(folder, "mapping.yaml"), "utf8")}# checked with the clinic\n`;
    writeFileSync(join(folder, "mapping.yaml"), answered);
    const kept = await command(folder, "fit", "clinic.csv", "--replace");
    expect(kept.stderr).toContain("or has been changed since, and is not replaced");
    expect(readFileSync(join(folder, "mapping.yaml"), "utf8")).toBe(answered);
    expect((await command(folder, "fit", "clinic.csv", "--into", "clinic.csv", "--replace")).code).toBe(4);
    expect(readFileSync(join(folder, "clinic.csv"), "utf8")).toBe(wordings.French);
  });

  it("of a workbook the one sheet that looks like the table is read; of two one must be named, and later it is the same", async () => {
    const patients = [
      ["Patient", "Injury date", "Hand", "Finger", "Pulley", "Grade", "Last contact", "Shoe"],
      ["p1", "2023-01-31", "left", "ring", "A2", "3", "2024-01-31", "41"],
      ["p2", "2023-02-28", "right", "middle", "A4", "2", "2024-03-31", "43"],
    ];
    const sheets = [
      { name: "About", rows: [["SYNTHETIC"], ["invented"]] },
      { name: "Patients", rows: patients },
      { name: "Later", rows: [...patients, ["p3", "2023-03-28", "lft", "ring", "A4", "2", "2024-03-31"]] },
    ];
    const book = workbookBytes({ sheets });
    const folder = folderWith({ "clinic.xlsx": book });
    const alone = folderWith({ "one.xlsx": workbookBytes({ sheets: sheets.slice(0, 2) }) });
    expect((await command(alone, "fit", "one.xlsx")).stdout).toContain(
      'one.xlsx, sheet "Patients": 2 records',
    );
    const refused = await command(folder, "fit", "clinic.xlsx");
    expect(refused.code).toBe(3);
    expect(refused.stderr).toContain(
      'rows of the same kind are in several sheets: "Patients" (2 rows), "Later" (3 rows)',
    );
    const fitted = await command(folder, "fit", "clinic.xlsx", "--sheet", "Patients");
    expect(fitted).toMatchObject({ code: 0, stderr: "" });
    expect(fitted.stdout).toContain('clinic.xlsx, sheet "Patients": 2 records');
    expect(fitted.stdout).toContain('other sheets: "About", "Later" (choose one with --sheet)');
    expect(fitted.stdout).toContain('not used:\n    Shoe (2 filled cells: "41" ...)');
    const wrong = await command(folder, "fit", "clinic.xlsx", "--sheet", "About", "--into", "about.yaml");
    expect(wrong.stdout).toContain(
      "needs, 0 are recognised.\n  Check that this is the right sheet (--sheet)",
    );
    const text = readFileSync(join(folder, "mapping.yaml"), "utf8").replace(
      "sheet: Patients",
      "sheet: Later",
    );
    const again = folderWith({ "clinic.xlsx": book, "mapping.yaml": text });
    const drifted = await command(
      again,
      "fit",
      "clinic.xlsx",
      "--mapping",
      "mapping.yaml",
      "--into",
      "m2.yaml",
    );
    expect(drifted.stdout).toContain('clinic.xlsx, sheet "Later": 3 records');
    expect(drifted.code).toBe(1);
    expect(readFileSync(join(again, "m2.yaml"), "utf8")).toContain(
      'What does "lft" in the column "Hand" mean for hand?',
    );
  });

  it.each([
    { name: "no header", text: "1;2;3\n4;5;6\n", says: "no row looks like a header" },
    { name: "no rows", text: "Patient;Injury date;Finger\n", says: "no row below it" },
  ])("$name: says what to do", async ({ text, says }) => {
    const { code, stderr } = await command(folderWith({ "clinic.csv": text }), "fit", "clinic.csv");
    expect(code).toBe(3);
    expect(stderr).toContain(says);
  });
});
