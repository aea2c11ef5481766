import { cpSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { beforeAll, describe, expect, it } from "vitest";
import { toColumns } from "../../../src/cohort/columns.js";
import type { PooledResults, SiteSummary } from "../../../src/pooling/index.js";
import { readOfSite } from "../../../src/pooling/summary/read-of-site.js";
import { hazardsRegression, incidenceCurve, logRank, shareAt } from "../../../src/statistics/index.js";
import { binnedRows } from "../../../src/statistics/pooling/tables/index.js";
import { analysedOf } from "../../../src/study/analysed.js";
import { strataOf } from "../../../src/study/strata.js";
import { schemaErrors } from "../../json-schemas.js";
import { threeSitesRead } from "../pooling/three-sites.js";
import { command, filesIn, folderWith } from "./run-command.js";

const cohort = fileURLToPath(new URL("../../../synthetic-data/three-sites", import.meta.url));
const sites = ["site-a", "site-b", "site-c"] as const;
const summaryOf = (site: string, into = `for-${site}`) => `${into}/synthetic-${site}-summary.json`;

describe("risk-set tables from the rows of sites to the pooled report", () => {
  let folder = "";
  const textOf = (path: string) => readFileSync(join(folder, path), "utf8");
  const contribute = (site: string, into: string, ...more: readonly string[]) =>
    command(folder, "contribute", "study/study.yaml", "--into", into, "--site", site, ...more);
  const pooled = (): PooledResults => JSON.parse(textOf("pooled/results.json")) as PooledResults;
  beforeAll(async () => {
    folder = folderWith({});
    cpSync(cohort, join(folder, "study"), { recursive: true });
    // each return on one day, so that every site has a table
    const study = textOf("study/study.yaml");
    writeFileSync(
      join(folder, "study/study.yaml"),
      /^question:/m.test(study)
        ? study.replace(/^question:/m, "question:\n  inexact_returns: on_one_day")
        : `${study}\nquestion:\n  inexact_returns: on_one_day\n`,
    );
    for (const site of sites) {
      const { code, stderr } = await contribute(
        site,
        `for-${site}`,
        "--risk-sets",
        "7",
        "--small-cells",
        "write",
      );
      expect(code, stderr).toBe(0);
    }
    const { code, stderr } = await command(
      folder,
      "pool",
      ...sites.map((site) => summaryOf(site)),
      "--into",
      "pooled",
    );
    expect(code, stderr).toBe(0);
  });

  /** All rows of all sites in the same bins, each grade of each site a stratum. */
  function rowsTogether() {
    const { read, plan } = threeSitesRead();
    const asked = { ...plan, question: { ...plan.question, inexact_returns: "on_one_day" as const } };
    const rows = sites.flatMap((site) => {
      const own = readOfSite(read, { named: site, plan: asked });
      return analysedOf(own.read, own.plan).groups.groups.flatMap(({ label, records }) =>
        records.map((record) => ({ site, label, record })),
      );
    });
    const records = rows.map(({ record }) => record);
    const grades = strataOf(records, ["grade"]);
    const keys = rows.map(({ site }, i) => `${site} ${grades.codes[i]}`);
    const names = [...new Set(keys)];
    const { times, causes, entries } = toColumns(records);
    const last = times.reduce((most, time) => Math.max(most, time), 0);
    const ends = Array.from({ length: Math.ceil(last / 7) }, (_, i) => 7 * (i + 1));
    return {
      ...binnedRows({ times, causes, entries }, { ends }),
      groups: rows.map(({ label }) => Number(label === "ring")),
      strata: keys.map((key) => names.indexOf(key)),
    };
  }

  it("curve, test and regression are those of all rows in the same bins, to 1e-8", () => {
    const { groups, strata, causes, times, entries } = rowsTogether();
    const together = pooled().risk_sets!.together!;
    expect(together.injuries).toBe(groups.length);
    expect(together).toMatchObject({ same_bins: true, ties: "efron", held_equal: ["grade"] });
    const events = Array.from(causes, (cause) => Number(cause === 1));
    const rows = { times, entries: entries!, events, strata };
    const fit = hazardsRegression(
      { ...rows, covariates: { names: ["ring"], columns: [groups] } },
      { ties: "efron" },
    );
    const [ratio] = together.hazard_ratios;
    for (const key of ["estimate", "lower", "upper"] as const)
      expect(Math.abs(ratio![key]! / fit.hazardRatios[0]![key]! - 1)).toBeLessThan(1e-8);
    const test = logRank({ ...rows, groups });
    expect(Math.abs(together.log_rank.chi_square! / test.chiSquare! - 1)).toBeLessThan(1e-8);
    for (const [code, label] of [
      [1, "ring"],
      [0, "tape"],
    ] as const) {
      const own = groups.flatMap((group, row) => (group === code ? [row] : []));
      const pick = (values: ArrayLike<number>) => own.map((row) => values[row]!);
      const curve = incidenceCurve({ times: pick(times), causes: pick(causes), entries: pick(entries!) });
      const found = together.curves.groups.find(({ group }) => group === label)!;
      expect(found.points.length).toBeGreaterThan(15);
      for (const { day, returned, at_risk } of found.points) {
        const wanted = shareAt(curve, day);
        expect(at_risk).toBe(wanted.atRisk);
        if (wanted.returned === null) expect(returned).toBeNull();
        else expect(Math.abs(returned! - wanted.returned)).toBeLessThan(1e-8);
      }
    }
  });

  it("summary and results follow their schemas, and the report is computed again", async () => {
    expect(schemaErrors(join(folder, summaryOf("site-a")), "site-summary.schema.json")).toEqual([]);
    expect(schemaErrors(join(folder, "pooled/results.json"), "pooled-results.schema.json")).toEqual([]);
    const page = textOf("pooled/report.html");
    for (const words of [
      "All injuries together, from risk-set tables",
      "take every injury on its own",
      "taken by the rule of Efron",
      "how much a further site may differ is not in it",
    ])
      expect(page).toContain(words);
    const files = filesIn(join(folder, "pooled"));
    expect(files).toContain("tables/synthetic-risk-set-curves.csv");
    expect(files.filter((path) => /site-curves-from-tables-\d\.svg$/.test(path))).toHaveLength(2);
    const again = await command(folder, "recompute", "pooled");
    expect(again.stdout).toContain("are the same, byte for byte");
  });

  it("a region may merge before a country pools: the same bytes", async () => {
    const merged = await command(
      folder,
      "pool",
      summaryOf("site-c"),
      summaryOf("site-a"),
      "--only-merge",
      "region.json",
    );
    expect(merged.code, merged.stderr).toBe(0);
    await command(folder, "pool", "region.json", summaryOf("site-b"), "--into", "by-region");
    for (const path of filesIn(join(folder, "pooled")).filter((one) => /\.(json|html|csv)$/.test(one)))
      expect(textOf(`by-region/${path}`), path).toBe(textOf(`pooled/${path}`));
  });

  it("sites with other bins, and sites without a table, are named", async () => {
    expect((await contribute("site-a", "wide", "--risk-sets", "28", "--small-cells", "write")).code).toBe(0);
    expect((await contribute("site-b", "bare", "--small-cells", "write")).code).toBe(0);
    const from = [summaryOf("site-a", "wide"), summaryOf("site-b", "bare"), summaryOf("site-c")];
    const { code, stderr } = await command(folder, "pool", ...from, "--into", "mixed");
    expect(code, stderr).toBe(0);
    const { risk_sets } = JSON.parse(textOf("mixed/results.json")) as PooledResults;
    expect(risk_sets!.without).toEqual([{ site: "site-b", reason: "not-asked" }]);
    expect(risk_sets!.together!.same_bins).toBe(false);
    const page = textOf("mixed/report.html");
    expect(page).toContain("No table came from site-b: none was asked for.");
    expect(page).toContain("the bins of the sites differ");
  });

  it("of a small site no table leaves, and terminal, summary and page say why", async () => {
    const { code, stdout } = await contribute("site-a", "small", "--risk-sets", "7", "--coarser-bins");
    expect(code).toBe(0);
    const why = "No risk-set table leaves: each group, within a stratum, is of too few people";
    expect(stdout).toContain(why);
    expect(textOf("small/synthetic-site-a-leaving.html")).toContain(why);
    const summary = JSON.parse(textOf(summaryOf("site-a", "small"))) as SiteSummary;
    expect(summary.risk_sets).toEqual({
      leaves: false,
      reason: "small-cells",
      bin_days: 7,
      coarser_bin_ends: null,
    });
  });

  it("a table that was altered stops with file and place", async () => {
    const summary = JSON.parse(textOf(summaryOf("site-a"))) as { risk_sets: { table: { cells: object[] } } };
    summary.risk_sets.table.cells.push(summary.risk_sets.table.cells[0]!);
    writeFileSync(join(folder, "altered.json"), JSON.stringify(summary));
    const { code, stderr } = await command(folder, "pool", "altered.json", "--into", "no");
    expect(code).toBe(3);
    expect(stderr).toMatch(/altered\.json: "risk_sets\.table\.cells\.\d+": is of a group and stratum/);
  });

  it("--coarser-bins alone is no question", async () => {
    const { code, stderr } = await contribute("site-a", "none", "--coarser-bins");
    expect(code).toBe(2);
    expect(stderr).toContain("Ask for it with --risk-sets DAYS");
  });

  it("the query for databases is printed", async () => {
    const { code, stdout } = await command(folder, "sql");
    expect(code).toBe(0);
    expect(stdout).toMatch(/^-- Weekly risk-set tables from the linked tables/);
    expect(stdout).toContain("GROUP BY site_id, treatment_group, grade, bin_end");
  });
});
