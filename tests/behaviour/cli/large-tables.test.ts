import { describe, expect, it } from "vitest";
import { mostRows } from "../../../src/ingest/text/most-rows.js";
import { command, filesIn, folderWith, soundSheet, soundStudy } from "./run-command.js";

const [header, first] = soundSheet.split("\n");
const large = `${header}\n${`${first}\n`.repeat(mostRows + 1)}`;

describe("a table that is too long for a study", () => {
  const folder = folderWith({ "sheet.csv": large, "study.yaml": soundStudy });

  it.each(["check", "report"])("%s refuses it with exit code 3 and the way on", async (verb) => {
    const { code, stdout, stderr } = await command(folder, verb, "study.yaml");
    expect([code, stdout]).toEqual([3, ""]);
    expect(stderr).toContain(
      `sheet.csv: this file has ${mostRows + 1} rows or more, but a table of a study may have at most ${mostRows} rows.`,
    );
    expect(stderr).toContain("pulley-outcomes check FILE --table single_sheet");
    expect(filesIn(folder)).toEqual(["sheet.csv", "study.yaml"]);
  });

  it("the way on is one: every row is checked as a stream", async () => {
    const { code, stdout } = await command(folder, "check", "sheet.csv", "--table", "single_sheet");
    expect(code).toBe(0);
    expect(stdout).toContain(`${mostRows + 1} rows read = ${mostRows + 1} used + 0 set aside`);
  });
});

describe("the largest number of rows", () => {
  it("stands in the help", async () => {
    expect((await command(".", "--help")).stdout).toContain(mostRows.toLocaleString("en"));
  });
});
