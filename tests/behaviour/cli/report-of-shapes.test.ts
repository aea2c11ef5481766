import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { command, folderWith } from "./run-command.js";

/** A sheet of `ingest/shapes`, whose README says how it was made and so what must come out. */
const sheet = (name: string) => readFileSync(new URL(`../ingest/shapes/${name}`, import.meta.url), "utf8");

/** What the report says of the rows of a sheet, as a new user gets there: fit, answers in the file, report. */
async function saidOfRows(name: string, answers: readonly string[]): Promise<string> {
  const study = `study: trial\ntitle: SYNTHETIC trial\nsynthetic: true\ndata:\n  single_sheet: ${name}\n  mappings: { single_sheet: mapping.yaml }\n`;
  const folder = folderWith({ [name]: sheet(name), "study.yaml": study });
  await command(folder, "fit", name);
  const path = join(folder, "mapping.yaml");
  const answered = answers.reduce(
    (text, answer) => text.replace(/answer:\n/, `answer: ${answer}\n`),
    readFileSync(path, "utf8"),
  );
  writeFileSync(path, answered);
  const { code, stderr } = await command(folder, "report", "study.yaml");
  expect({ code, stderr }).toEqual({ code: 0, stderr: "" });
  return readFileSync(join(folder, "report", "report.html"), "utf8").replaceAll(/<[^>]+>/g, " ");
}

describe("what a report says of sheets of other shapes, counted by hand", () => {
  it("rows of visits: 20 rows of 7 injuries, every cell on every row", async () => {
    expect(await saidOfRows("01-one-row-a-visit.csv", ["visit"])).toContain(
      "01-one-row-a-visit.csv has one row per visit: of its 20 rows used, 7 became injuries and 13 are further visits of these. Rows of which the injury is used and the visit is not: 0. Blank cells that were read from another row of the same injury or person: 0.",
    );
  });

  it("rows of visits with cells written once: 7 columns are blank on each of 8 further rows", async () => {
    const said = await saidOfRows("02-visits-filled-in-once.csv", ["visit"]);
    expect(said).toContain(
      `of its 13 rows used, 5 became injuries and 8 are further visits of these. Rows of which the injury is used and the visit is not: 0. Blank cells that were read from another row of the same injury or person: ${7 * 8}.`,
    );
  });

  it("numbered groups: 6 rows hold 10 injuries, and no filled cell is left over", async () => {
    const said = await saidOfRows("03-several-injuries-in-a-row.csv", ["each", "ask"]);
    expect(said).toContain(
      "03-several-injuries-in-a-row.csv has 6 rows, some of which hold several injuries or treatments; each of these counts as a row above.",
    );
    expect(said).not.toContain("that are not used");
  });

  it("columns that are not used: of the second groups 3 rows are filled in 3 columns, of the third 1 row", async () => {
    const said = await saidOfRows("03-several-injuries-in-a-row.csv", ["first", "ask"]);
    expect(said).toContain(
      `Columns of 03-several-injuries-in-a-row.csv that are not used: 6, with ${3 * 3 + 3 * 1} filled cells.`,
    );
  });
});
