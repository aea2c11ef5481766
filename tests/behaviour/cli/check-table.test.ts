import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { command, folderWith } from "./run-command.js";

const header = "injury_id,date,modality,pulley,position,distance_mm";
const reading = (distance: string) => `P09-1,2024-03-08,ultrasound,A2,loaded,${distance}`;

describe("check --table: one CSV by itself, as a stream", () => {
  it("counts the rows, says each query with its place, and exits with 1 when rows are set aside", async () => {
    const folder = folderWith({
      "i.csv": [header, reading("3.4"), reading("2-3"), reading("44")].join("\n"),
    });
    const { code, stdout } = await command(folder, "check", "i.csv", "--table", "imaging");
    expect(code).toBe(1);
    expect(stdout).toContain("i.csv (imaging): 3 rows read = 1 used + 2 set aside");
    expect(stdout).toContain('i.csv, row 3, column "distance_mm": "2-3"');
    expect(stdout).toContain('i.csv, row 4, column "distance_mm": "44"');
  });

  it("a table without queries exits with 0", async () => {
    const folder = folderWith({ "i.csv": `${header}\n${reading("3.4")}\n` });
    const { code, stdout } = await command(folder, "check", "i.csv", "--table", "imaging");
    expect([code, stdout]).toEqual([0, expect.stringContaining("There are no queries about single rows.")]);
  });

  it.each([
    ["another table", "i.csv", "sites", "contains no column name of the table sites"],
    ["no file", "gone.csv", "imaging", "does not exist"],
    ["a folder", ".", "imaging", "is a folder"],
  ])("%s: code 3 and what to correct", async (_, file, table, words) => {
    const folder = folderWith({ "i.csv": `${header}\n${reading("3.4")}\n` });
    const { code, stdout, stderr } = await command(folder, "check", join(".", file), "--table", table);
    expect(code).toBe(3);
    expect(stdout + stderr).toContain(words);
  });
});
