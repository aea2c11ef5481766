import Papa from "papaparse";
import { describe, expect, it } from "vitest";
import { type PageInput, renderReport, resultsText } from "../../../src/report/index.js";
import { resultsSchema } from "../../../src/study/results.js";
import { inputOf, planOf } from "./fixtures.js";

const folder = async (input: PageInput): Promise<Map<string, string | Uint8Array>> =>
  new Map((await renderReport(input)).map(({ path, content }) => [path, content]));
const rowsOf = (files: Map<string, string | Uint8Array>, path: string): Record<string, string>[] =>
  Papa.parse<Record<string, string>>(String(files.get(path)), { header: true, skipEmptyLines: true }).data;

const real = { plan: planOf({ synthetic: false }) };

describe("the folder of a report", () => {
  it("holds the page, tables, figures and results under these names", async () => {
    const paths = [...(await folder(inputOf(real))).keys()];
    expect(paths[0]).toBe("report.html");
    expect(paths.at(-1)).toBe("results.json");
    expect(paths).toEqual(
      expect.arrayContaining([
        "figures/invented-all.svg",
        "figures/invented-all.png",
        "figures/invented-all.vl.json",
      ]),
    );
    expect(paths.filter((path) => path.startsWith("tables/"))).toEqual(
      [
        "cohort",
        "target-trial",
        "first-treatments",
        "first-treatments-other-readings",
        "curves",
        "curve-points",
        "landmarks",
        "quantiles",
        "number-at-risk",
        "other-ends",
        "other-ends-landmarks",
        "within",
        "within-landmarks",
        "within-differences",
        "after-return",
        "after-return-landmarks",
        "after-return-over-time",
        "after-return-followed",
        "how-returns-are-known",
        "shares-by-reading",
        "effects",
        "effects-left-out",
        "tests",
        "estimands",
        "differences-over-time",
        "difference-points",
        "distances",
        "distance-pairs",
        "distance-thresholds",
        "missing-values",
        "missing-together",
        "lost",
        "lost-and-stayed",
        "lost-and-stayed-tape",
        "after-loss",
        "after-loss-factors",
        "accounting",
        "queries",
      ]
        .map((name) => `tables/${name}.csv`)
        .concat("tables/about-these-tables.txt"),
    );
  });

  it("invented data: each table and figure says so in its name, each row in its first cell", async () => {
    const files = await folder(inputOf());
    for (const path of files.keys())
      if (/\.(csv|svg|png|vl\.json)$/.test(path)) expect(path).toContain("/synthetic-");
    for (const [path, content] of files) {
      if (!path.endsWith(".csv")) continue;
      const [head, ...rows] = Papa.parse<string[]>(String(content), { skipEmptyLines: true }).data;
      expect(head?.[0], path).toBe("data");
      expect(new Set(rows.map((row) => row[0])), path).toEqual(new Set(["SYNTHETIC"]));
    }
  });

  it("is the same to the byte, twice, and when the results come from their own text", async () => {
    const once = await renderReport(inputOf());
    expect(await renderReport(inputOf())).toEqual(once);
    const again = resultsSchema.parse(JSON.parse(resultsText(inputOf().results)));
    expect(await renderReport({ ...inputOf(), results: again })).toEqual(once);
  });

  it("results.json reads back as the same results, ends in a newline and is indented by two", async () => {
    const text = String((await folder(inputOf())).get("results.json"));
    expect(JSON.parse(text)).toEqual(JSON.parse(JSON.stringify(inputOf().results)));
    expect(text).toMatch(/^\{\n {2}"format": "pulley-outcomes results 1",\n[\s\S]*\}\n$/);
  });

  it("leaves its input alone", async () => {
    const input = inputOf();
    const before = structuredClone({ results: input.results, figures: input.figures });
    await renderReport(input);
    expect({ results: input.results, figures: input.figures }).toEqual(before);
  });

  it("refuses results that are not in the agreed form, saying where", async () => {
    const { results } = inputOf();
    const broken = { ...results, follow_up: { ...results.follow_up, completeness: Number.NaN } };
    await expect(renderReport({ ...inputOf(), results: broken })).rejects.toThrow("follow_up.completeness");
  });

  it("refuses two figures with one id, and an id that can't be a file name", async () => {
    const input = inputOf();
    const [figure] = input.figures;
    await expect(renderReport({ ...input, figures: [figure!, figure!] })).rejects.toThrow("there twice");
    await expect(renderReport({ ...input, figures: [{ ...figure!, id: "../x" }] })).rejects.toThrow(
      'figure id "../x"',
    );
  });
});

describe("tables", () => {
  it("carry every number at full precision, blank for null", async () => {
    const { results } = inputOf(real);
    const files = await folder(inputOf(real));
    const effects = rowsOf(files, "tables/effects.csv");
    expect(effects).toHaveLength(results.effects.length);
    results.effects.forEach((effect, index) => {
      expect(effects[index]!.id).toBe(effect.id);
      expect(Number(effects[index]!.estimate)).toBe(effect.estimate.value);
      expect(effects[index]!.estimate_reason).toBe("");
    });
    const curves = results.curves.flatMap((family) => family.curves);
    const points = rowsOf(files, "tables/curve-points.csv");
    const expected = curves.flatMap((curve) =>
      curve.points.map((point) => [curve.label, point.day, point.returned, point.returned_lower]),
    );
    expect(
      points.map((row) => [
        row.group,
        Number(row.day),
        Number(row.returned),
        row.returned_lower === "" ? null : Number(row.returned_lower),
      ]),
    ).toEqual(expected);
  });

  it("the cohort has one row a variable, term and group, in the order of the report", async () => {
    const { cohort } = inputOf(real).results;
    const rows = rowsOf(await folder(inputOf(real)), "tables/cohort.csv");
    expect(rows.map(({ variable, term, group }) => [variable, term, group])).toEqual(
      cohort.rows.flatMap(({ variable, term }) =>
        ["all", "ring", "tape"].map((group) => [variable, term ?? "", group]),
      ),
    );
    expect(rows[1]).toMatchObject({ count: "2", recorded: "24", standardised_difference: "0.312" });
  });

  it("the account balances, stage by stage", async () => {
    const rows = rowsOf(await folder(inputOf(real)), "tables/accounting.csv");
    const stages = new Set(rows.map(({ stage, table }) => `${stage} ${table}`));
    for (const stage of stages) {
      const of = (what: RegExp) =>
        rows
          .filter((row) => `${row.stage} ${row.table}` === stage && what.test(row.what!))
          .reduce((sum, row) => sum + Number(row.n), 0);
      expect(of(/^read$/), stage).toBe(of(/kept/));
    }
  });

  it("without imaging there are no distances; a study without effects has a head and no rows", async () => {
    const files = await folder(inputOf({ ...real, distances: null, effects: [], tests: [], queries: [] }));
    expect([...files.keys()].some((path) => path.startsWith("tables/distance"))).toBe(false);
    expect(String(files.get("tables/effects-left-out.csv"))).toBe("id,stratum,injuries,reason\n");
    expect(String(files.get("tables/tests.csv")).trimEnd().split("\n")).toHaveLength(1);
  });

  it("a cell that a spreadsheet would take for a formula is disarmed", async () => {
    const { results } = inputOf(real);
    const queries = results.queries.map((query) => ({ ...query, correction: "=1+1" }));
    expect(String((await folder(inputOf({ ...real, queries }))).get("tables/queries.csv"))).toContain(
      "'=1+1",
    );
  });
});
