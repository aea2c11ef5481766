import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, it } from "vitest";
import { shownNames } from "../../../src/cli/shown-names.js";
import { plainStudyText } from "../../../src/run/plain-study.js";
import { withShownNames } from "../../../src/run/study-files.js";
import { readPlan } from "../../../src/study/index.js";
import { command, filesIn, folderWith, type Said, soundSheet, soundStudy } from "./run-command.js";

const secret = "Ada-Brown-of-Stone-Street";

/** Every text of a folder that holds a word. */
const tellsOf = (folder: string, word: string) =>
  filesIn(folder).filter((path) => {
    try {
      return readFileSync(join(folder, path)).includes(word);
    } catch {
      return false;
    }
  });

const planNaming = (data: Readonly<Record<string, string>>) =>
  readPlan("study.yaml", `study: a\ntitle: A\ndata: ${JSON.stringify({ injuries: "i.csv", ...data })}\n`);

describe("the names of files in what is written", () => {
  it.each([
    ["sheets/i.csv", "sheets/i.csv"],
    ["./i.csv", "i.csv"],
    ["/home/ada/i.csv", "i.csv"],
    ["../other/i.csv", "i.csv"],
    ["sheets/../../ada/i.csv", "i.csv"],
    ["C:\\Users\\ada\\i.csv", "i.csv"],
    ["C:/Users/ada/i.csv", "i.csv"],
    ["\\\\server\\ada\\i.csv", "i.csv"],
    ["//server/ada/i.csv", "i.csv"],
    ["file:///home/ada/i.csv", "i.csv"],
    ["/studies/one/sheets/i.csv", "sheets/i.csv"],
  ])("%s is told as %s", (file, told) => {
    expect(shownNames("/studies/one/study.yaml", planNaming({ injuries: file }))(file)).toBe(told);
  });

  it("numbers different files of one name, and not one file named twice", () => {
    const plan = planNaming({
      injuries: "/a/t.csv",
      treatments: "/b/t.csv",
      imaging: "/a/t.csv",
      visits: "t-2.csv",
    });
    const told = withShownNames(plan, shownNames("/s/study.yaml", plan)).data;
    expect([told.injuries, told.treatments, told.imaging]).toEqual(["t.csv", "t-2.csv", "t.csv"]);
    expect(told.visits).toBe("t-2-2.csv");
  });

  it("the study file of a report reads back to the same plan", () => {
    const plan = readPlan(
      "study.yaml",
      `# a comment\n${soundStudy}compare: { by: grade, groups: ["3", 4a], reference: "3" }\nusual_windows: { "3": { from_weeks: 1, to_weeks: null } }\n`,
    );
    expect(readPlan("study.yaml", plainStudyText(plan))).toEqual(plan);
  });
});

describe("a report of a study with paths, comments and columns of the site's own", () => {
  const elsewhere = folderWith({});
  const withColumn = soundSheet
    .trimEnd()
    .split("\n")
    .map((line, at) => `${line},${at === 0 ? secret : "x"}`)
    .join("\n");
  writeFileSync(join(elsewhere, "sheet.csv"), `${withColumn}\n`);
  const folder = folderWith({
    "study.yaml": `# written by ${secret}\n${soundStudy.replace("sheet.csv", join(elsewhere, "sheet.csv"))}# for ${secret}\n`,
  });
  let made: Said;
  beforeAll(async () => {
    made = await command(folder, "report", "study.yaml");
  });

  it("tells none of them in any file", async () => {
    expect(made).toMatchObject({ code: 0, stderr: "" });
    const report = join(folder, "report");
    expect(tellsOf(report, secret)).toEqual([]);
    expect(tellsOf(report, elsewhere)).toEqual([]);
    expect(tellsOf(report, folder)).toEqual([]);
    const { queries } = JSON.parse(readFileSync(join(report, "results.json"), "utf8"));
    expect(queries.find(({ code }: { code: string }) => code === "column-unknown")).toMatchObject({
      n: 1,
      column: null,
      file: "sheet.csv",
    });
    // at the site it is said
    expect((await command(folder, "check", "study.yaml")).stdout).toContain(secret);
  });

  it("is recomputed from the study file, and by somebody else from that of the report", async () => {
    expect(await command(folder, "recompute", "report")).toMatchObject({ code: 0 });
    const other = folderWith({
      "study-of-another-name.yaml": readFileSync(join(folder, "report/study.yaml")),
    });
    writeFileSync(join(other, "sheet.csv"), readFileSync(join(elsewhere, "sheet.csv")));
    const anew = await command(
      other,
      "recompute",
      join(folder, "report"),
      "--study",
      "study-of-another-name.yaml",
    );
    expect(anew).toMatchObject({ code: 0 });
  });
});
