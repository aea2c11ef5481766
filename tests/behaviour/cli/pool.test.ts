import { cpSync, existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { beforeAll, describe, expect, it } from "vitest";
import { schemaErrors } from "../../json-schemas.js";
import { command, filesIn, folderWith } from "./run-command.js";

const cohort = fileURLToPath(new URL("../../../synthetic-data/three-sites", import.meta.url));
const name = (site: string) => `for-${site}/synthetic-${site}-summary.json`;

describe("pooling sites by their summaries", () => {
  let folder = "";
  const textOf = (path: string) => readFileSync(join(folder, path), "utf8");
  beforeAll(async () => {
    folder = folderWith({});
    cpSync(cohort, join(folder, "study"), { recursive: true });
    for (const site of ["site-a", "site-b", "site-c"]) {
      const { code, stderr } = await command(
        folder,
        "contribute",
        "study/study.yaml",
        "--into",
        `for-${site}`,
        "--site",
        site,
      );
      expect(code, stderr).toBe(0);
    }
    const { code, stderr } = await command(
      folder,
      "pool",
      ...["site-a", "site-b", "site-c"].map(name),
      "--into",
      "pooled",
    );
    expect(code, stderr).toBe(0);
  });

  it("a site's summary follows its schema, and a page tells what leaves", () => {
    expect(filesIn(join(folder, "for-site-a"))).toEqual([
      "manifest.json",
      "synthetic-site-a-leaving.html",
      "synthetic-site-a-summary.json",
    ]);
    expect(schemaErrors(join(folder, name("site-a")), "site-summary.schema.json")).toEqual([]);
    const page = textOf("for-site-a/synthetic-site-a-leaving.html");
    expect(page).not.toMatch(/<script|https?:\/\/|javascript:/i);
    for (const said of [
      "SYNTHETIC",
      "Grade 4b: fewer than 5 people are behind it",
      "an ethics committee",
      "not advice for one finger",
    ])
      expect(page).toContain(said);
    const words = page.replace(/<style>[\s\S]*?<\/style>/g, "");
    for (const text of [words, textOf(name("site-a"))]) expect(text).not.toMatch(/P\d{3}|20\d\d-\d\d-\d\d/);
  });

  it("which site is meant is asked where the tables hold several", async () => {
    const { code, stderr } = await command(folder, "contribute", "study/study.yaml", "--into", "none");
    expect(code).toBe(3);
    expect(stderr).toContain(
      "The tables hold injuries of 3 sites, and a summary is of one: site-a, site-b, site-c.",
    );
    expect(existsSync(join(folder, "none"))).toBe(false);
  });

  it("the pooled report holds page, results, tables, figures and the summaries, and is computed again", async () => {
    const files = filesIn(join(folder, "pooled"));
    for (const path of [
      "report.html",
      "results.json",
      "summaries.json",
      "manifest.json",
      "tables/synthetic-pooled-answers.csv",
    ])
      expect(files).toContain(path);
    expect(files.filter((path) => path.endsWith(".svg"))).toHaveLength(4);
    expect(schemaErrors(join(folder, "pooled/results.json"), "pooled-results.schema.json")).toEqual([]);
    expect(schemaErrors(join(folder, "pooled/summaries.json"), "merged-summaries.schema.json")).toEqual([]);
    const page = textOf("pooled/report.html");
    for (const words of [
      "What 3 sites can tell, and what not",
      "do not all mean the same by the return",
      "prediction interval",
      "not advice for one finger",
    ])
      expect(page).toContain(words);
    const again = await command(folder, "recompute", "pooled");
    expect(again.stdout).toContain("are the same, byte for byte");
    expect(again.code).toBe(0);
  });

  it("what was changed in the folder is said, file by file", async () => {
    cpSync(join(folder, "pooled"), join(folder, "changed"), { recursive: true });
    writeFileSync(join(folder, "changed/results.json"), "{}");
    const { code, stdout } = await command(folder, "recompute", "changed");
    expect(code).toBe(1);
    expect(stdout).toContain("results.json differs");
    expect(stdout).not.toContain("report.html differs");
  });

  it("a region may merge before a country pools: the same bytes", async () => {
    expect(
      (await command(folder, "pool", name("site-c"), name("site-b"), "--only-merge", "region.json")).code,
    ).toBe(0);
    expect((await command(folder, "pool", "region.json", "for-site-a", "--into", "by-region")).code).toBe(0);
    for (const path of filesIn(join(folder, "pooled")).filter((one) => one.includes(".")))
      expect(textOf(`by-region/${path}`), path).toBe(textOf(`pooled/${path}`));
  });

  it("a spoilt summary stops with file and place, and nothing is written", async () => {
    writeFileSync(
      join(folder, "spoilt.json"),
      textOf(name("site-a")).replace('"analysed": 85', '"analysed": "many"'),
    );
    const { code, stderr } = await command(folder, "pool", "spoilt.json", name("site-b"), "--into", "no");
    expect(code).toBe(3);
    expect(stderr).toContain('spoilt.json: "description.analysed": "many" cannot be used.');
    expect(existsSync(join(folder, "no"))).toBe(false);
  });

  it("asks what to write", async () => {
    const { code, stderr } = await command(folder, "pool", name("site-a"));
    expect(code).toBe(2);
    expect(stderr).toContain("--into FOLDER for a pooled report, or --only-merge FILE");
  });
});
