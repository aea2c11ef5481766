import { describe, expect, it } from "vitest";
import { command, filesIn, folderWith, soundSheet, soundStudy } from "./run-command.js";

const [header, ...rows] = soundSheet.trimEnd().split("\n") as [string, ...string[]];
const sheet = (...lines: readonly string[]) => `${[header, ...lines].join("\n")}\n`;

/** Bytes without pattern, the same in every run (the multiplicative generator of Park & Miller 1988). */
function garbage(length: number): Uint8Array {
  let state = 1;
  return Uint8Array.from({ length }, () => {
    state = (state * 48271) % 2147483647;
    return state & 0xff;
  });
}

interface Case {
  readonly name: string;
  readonly sheet?: string | Uint8Array;
  readonly study?: string;
  readonly says: readonly string[];
}

const unusable: readonly Case[] = [
  { name: "a table that is not there", says: ['"', "sheet.csv", "does not exist", "data.single_sheet"] },
  { name: "an empty table", sheet: "", says: ["sheet.csv", "empty"] },
  { name: "a table with a header only", sheet: `${header}\n`, says: ["sheet.csv", "row"] },
  {
    name: "a delimiter that is none of the usual ones",
    sheet: soundSheet.replaceAll(",", "^"),
    says: ["sheet.csv", "comma"],
  },
  {
    name: "a binary file",
    sheet: Uint8Array.from([0x50, 0x4b, 3, 4, 0, 0, 0, 0]),
    says: ["sheet.csv", "CSV"],
  },
  { name: "10 MB of garbage", sheet: garbage(10_000_000), says: ["sheet.csv"] },
  {
    name: "10 MB of one line",
    sheet: "x".repeat(10_000_000),
    says: ["sheet.csv"],
  },
  {
    name: "a missing column",
    sheet: soundSheet.replace("grade,", "grad,"),
    says: ["sheet.csv", '"grade"', '"grad"'],
  },
  {
    name: "a typo in a key of the study file",
    sheet: soundSheet,
    study: `${soundStudy}horizon_week: 20\n`,
    says: ["study.yaml, line 5", 'Did you mean "horizon_weeks"?'],
  },
  {
    name: "a study file that is not YAML",
    sheet: soundSheet,
    study: "study: [\n",
    says: ["study.yaml, line", "not YAML"],
  },
];

describe("input that cannot be used ends with exit code 3, a place and a remedy, and writes nothing", () => {
  it.each(unusable)("$name", async ({ sheet: content, study, says }) => {
    const folder = folderWith({
      "study.yaml": study ?? soundStudy,
      ...(content === undefined ? {} : { "sheet.csv": content }),
    });
    const before = filesIn(folder);
    const { code, stdout, stderr } = await command(folder, "report", "study.yaml");
    expect(code, stderr).toBe(3);
    expect(stdout).toBe("");
    for (const part of says) expect(stderr).toContain(part);
    expect(stderr).toContain("\n  ");
    expect(stderr).not.toMatch(/\n\s+at .*:\d+:\d+/);
    expect(stderr.length).toBeLessThan(5000);
    expect(filesIn(folder)).toEqual(before);
  });

  it("a study file that is not there", async () => {
    const folder = folderWith({});
    const { code, stderr } = await command(folder, "report", "nowhere.yaml");
    expect(code).toBe(3);
    expect(stderr).toContain('"nowhere.yaml" does not exist');
    expect(filesIn(folder)).toEqual([]);
  });
});

describe("a row that cannot be used is set aside, the others are reported on", () => {
  it.each([
    {
      name: "an unknown grade",
      row: "P05,2024-05-01,left,ring,A3,IV,ring,2024-05-02,2024-08-01,2024-12-01",
      says: ["row 6", '"grade"', '"IV"', "4a or 4b"],
    },
    {
      name: "a return before the injury",
      row: "P05,2024-05-01,left,ring,A3,2,ring,2024-05-02,2024-04-01,2024-12-01",
      says: ["row 6", "2024-04-01"],
    },
    {
      name: "a date that is not one",
      row: "P05,31/02/2024,left,ring,A3,2,ring,2024-05-02,2024-08-01,2024-12-01",
      says: ["row 6", '"injury_date"', "year-month-day", "date_order"],
    },
  ])("$name", async ({ row, says }) => {
    const folder = folderWith({ "study.yaml": soundStudy, "sheet.csv": sheet(...rows, row) });
    const checked = await command(folder, "check", "study.yaml");
    expect(checked.code, checked.stderr).toBe(1);
    expect(checked.stdout).toContain("5 rows read = 4 used + 1 set aside");
    for (const part of says) expect(checked.stdout).toContain(part);
    expect((await command(folder, "report", "study.yaml")).code).toBe(0);
  });

  it("an injury named twice in linked tables", async () => {
    const folder = folderWith({
      "study.yaml": soundStudy.replace("single_sheet: sheet.csv", "injuries: injuries.csv"),
      "injuries.csv": `injury_id,person_id,injury_date,hand,finger,pulleys,grade,last_contact_date
P1-1,P1,2024-03-04,left,ring,A3,2,2024-11-18
P1-1,P2,2024-03-05,left,ring,A3,2,2024-11-18
P3-1,P3,2024-03-06,left,ring,A3,2,2024-11-18
`,
    });
    const { code, stdout } = await command(folder, "check", "study.yaml");
    expect(code).toBe(1);
    expect(stdout).toContain("3 rows read = 1 used + 2 set aside");
    expect(stdout).toContain('"P1-1"');
  });
});

describe("the command line itself", () => {
  it.each([
    { words: ["reprot", "study.yaml"], says: "report" },
    { words: ["report"], says: "study" },
    { words: ["report", "study.yaml", "--intoo", "x"], says: "--into" },
    { words: ["begin", "x", "--form", "both"], says: "single-sheet" },
    { words: ["invent", "s.yaml", "--into", "x", "--injuries", "many"], says: "whole number" },
  ])("$words ends with exit code 2 and says what was meant", async ({ words, says }) => {
    const folder = folderWith({});
    const { code, stderr } = await command(folder, ...words);
    expect(code).toBe(2);
    expect(stderr).toContain(says);
    expect(filesIn(folder)).toEqual([]);
  });

  it("refuses a folder that holds something else, with exit code 4", async () => {
    const folder = folderWith({
      "study.yaml": soundStudy,
      "sheet.csv": soundSheet,
      "report/precious.txt": "mine",
    });
    for (const words of [
      ["report", "study.yaml"],
      ["report", "study.yaml", "--replace"],
    ]) {
      const { code, stderr } = await command(folder, ...words);
      expect(code, stderr).toBe(4);
      expect(stderr).toContain("--into");
      expect(filesIn(folder)).toEqual(["report", "report/precious.txt", "sheet.csv", "study.yaml"]);
    }
  });
});
