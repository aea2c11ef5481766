import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, it } from "vitest";
import { schemaErrors } from "../../json-schemas.js";
import { command, folderWith, soundSheet, soundStudy } from "./run-command.js";

let folder = "";
beforeAll(async () => {
  folder = folderWith({ "study.yaml": soundStudy, "sheet.csv": soundSheet });
  const { code, stderr } = await command(folder, "seal", "study.yaml", "--on", "2026-01-05");
  expect(code, stderr).toBe(0);
});
const read = (path: string) => readFileSync(join(folder, path), "utf8");
const reported = async (into: string, study: string) => {
  writeFileSync(join(folder, "asked.yaml"), study);
  const { code, stderr } = await command(folder, "report", "asked.yaml", "--into", into);
  expect(code, stderr).toBe(0);
  return read(`${into}/report.html`).replaceAll(/<[^>]+>/g, " ");
};

describe("sealing what is asked, on the command line", () => {
  it("writes a file in the form of its schema, the same bytes each time", async () => {
    expect(schemaErrors(join(folder, "sealed-plan.json"), "sealed-plan.schema.json")).toEqual([]);
    const { code, stdout } = await command(
      folder,
      "seal",
      "study.yaml",
      "--on",
      "2026-01-05",
      "--into",
      "b.json",
    );
    expect(code).toBe(0);
    expect(stdout).toContain(JSON.parse(read("b.json")).sha256);
    expect(read("b.json")).toBe(read("sealed-plan.json"));
  });

  it("replaces nothing unasked, and nothing that is no sealed plan", async () => {
    const again = await command(folder, "seal", "study.yaml", "--on", "2026-01-06");
    expect(again.code).toBe(4);
    const other = await command(
      folder,
      "seal",
      "study.yaml",
      "--on",
      "2026-01-06",
      "--into",
      "sheet.csv",
      "--replace",
    );
    expect(other.code).toBe(4);
    expect(read("sheet.csv")).toBe(soundSheet);
  });

  it.each(["2026-02-30", "5.1.2026", "today"])(
    "%s is no day: the message says how one is written",
    async (on) => {
      const { code, stderr } = await command(folder, "seal", "study.yaml", "--on", on, "--into", "c.json");
      expect(code).toBe(2);
      expect(stderr).toContain("as YYYY-MM-DD, such as 2026-01-05");
    },
  );

  it("a report that asks the same says so, is recomputed, and lists the file among its inputs", async () => {
    const text = await reported("same", `${soundStudy}\nsealed: sealed-plan.json\n`);
    expect(text).toContain("What is asked is the same now, key by key");
    expect(text).toContain("sealed on 2026-01-05, unchanged");
    expect(JSON.parse(read("same/results.json")).sealed.changed).toEqual([]);
    const { inputs } = JSON.parse(read("same/manifest.json"));
    expect(inputs.map(({ name }: { name: string }) => name)).toContain("sealed-plan.json");
    const { code, stderr } = await command(folder, "recompute", "same", "--study", "asked.yaml");
    expect(code, stderr).toBe(0);
  }, 240_000);

  it("a report that asks something else says it in its first lines, with the keys", async () => {
    await reported("other", `${soundStudy}\nsealed: sealed-plan.json\nmain_landmark_weeks: 10\n`);
    const [, answer] = read("other/report.html").split(/<section id="(?:answer|care)"/);
    expect(answer).toContain(
      "What is asked is not what was sealed on 2026-01-05: 1 key of the study file (main_landmark_weeks) is different",
    );
  }, 240_000);

  it.each([
    [
      "altered",
      (text: string) => text.replace('"horizon_weeks": 26', '"horizon_weeks": 30'),
      "was altered after it was sealed",
    ],
    ["another file", () => soundSheet, "this is no sealed plan"],
    ["another form", (text: string) => text.replace('"format"', '"form"'), "this is no sealed plan"],
  ])("%s: no report is written", async (_, spoil, message) => {
    writeFileSync(join(folder, "spoilt.json"), spoil(read("sealed-plan.json")));
    writeFileSync(join(folder, "spoilt.yaml"), `${soundStudy}\nsealed: spoilt.json\n`);
    const { code, stderr } = await command(folder, "report", "spoilt.yaml", "--into", "spoilt");
    expect(code).toBe(3);
    expect(stderr).toContain(`spoilt.json`);
    expect(stderr).toContain(message);
  });
});
