import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { DuckDBInstance } from "@duckdb/node-api";
import { describe, expect, it } from "vitest";
import { deriveCohort, linkTables } from "../../../../src/cohort/index.js";
import { readCohort } from "../../../../src/ingest/index.js";
import { riskSetsOf } from "../../../../src/pooling/tables/index.js";
import { compared } from "../../../../src/study/groups.js";
import { type Plan, readPlan, specificationOf } from "../../../../src/study/index.js";
import { drawCohort, readScenario, tableText } from "../../../../src/synthetic/index.js";
import { temporaryFolder } from "../../../temporary-folders.js";

const root = new URL("../../../../", import.meta.url);
const query = readFileSync(new URL("src/pooling/tables/risk-sets.sql", root), "utf8");
const folderOf = (name: string) => new URL(`synthetic-data/${name}/`, root);
const tables = ["injuries", "treatments", "visits", "sites"] as const;

/** Lines of a table by site, group, grade and bin. */
type Lines = ReadonlyMap<string, readonly number[]>;

/** What the query makes of tables as they lie in files, in an embedded database. */
async function byQuery(folder: string, closedOn: string): Promise<Lines> {
  const instance = await DuckDBInstance.create(":memory:");
  const connection = await instance.connect();
  try {
    for (const table of tables) {
      const path = join(folder, `synthetic-${table}.csv`).replaceAll("'", "''");
      await connection.run(
        `CREATE TABLE ${table} AS SELECT * FROM read_csv('${path}', all_varchar = true, header = true, delim = ',', quote = '"', nullstr = '')`,
      );
    }
    const result = await connection.runAndReadAll(query.replace("2023-07-02", closedOn));
    return new Map(
      result
        .getRows()
        .map(([site, group, grade, end, ...counts]) => [
          [site, group, grade, end].join(" "),
          counts.map(Number),
        ]),
    );
  } finally {
    connection.closeSync();
    instance.closeSync();
  }
}

/** What the toolkit makes of the same tables, site by site. */
function byToolkit(folder: string, plan: Plan): Lines {
  const sources = (["injuries", "treatments", "imaging", "visits", "sites"] as const).map((table) => ({
    table,
    file: `${table}.csv`,
    bytes: readFileSync(join(folder, `synthetic-${table}.csv`)),
  }));
  const read = readCohort(sources, {
    closedOn: plan.data.closed_on ?? null,
    thresholdMm: 2,
    personIds: plan.data.person_ids,
  });
  const asked = { ...specificationOf(plan), path: "days" as const };
  const { records } = deriveCohort(linkTables(read.tables), asked.question);
  const lines = new Map<string, readonly number[]>();
  for (const site of new Set(records.map((record) => record.site))) {
    const own = records.filter((record) => record.site === site);
    const made = riskSetsOf(compared(own, asked).groups, {
      asked,
      binDays: 7,
      smallestCell: 1,
      coarser: false,
    });
    if (!made.leaves) throw new Error(made.reason);
    for (const { group, stratum, day, entered, censored, ended } of made.table.cells)
      day.forEach((end, i) => {
        const counts = [entered[i]!, censored[i]!];
        for (const kind of ["milestone", "gave_up", "new_rupture", "died"] as const)
          counts.push(ended[kind]?.[i] ?? 0);
        lines.set([site, group, stratum?.replace(/^grade /, ""), end].join(" "), counts);
      });
  }
  return lines;
}

const asWritten = (name: string): Plan =>
  readPlan("study.yaml", readFileSync(new URL("study.yaml", folderOf(name)), "utf8"));
const inOrder = (lines: Lines) => [...lines].sort(([a], [b]) => (a < b ? -1 : 1));

describe("the query gives the tables that the toolkit makes", () => {
  it.each(["three-sites", "registry"])("of the committed synthetic cohort %s", async (name) => {
    const plan = asWritten(name);
    const folder = folderOf(name).pathname;
    const ours = byToolkit(folder, plan);
    expect(ours.size).toBeGreaterThan(50);
    expect(inOrder(await byQuery(folder, plan.data.closed_on!))).toEqual(inOrder(ours));
  });

  it.each([3, 4])("of 1,500 invented injuries, draw %i", async (seed) => {
    const name = "three-sites";
    const scenario = readScenario(
      "scenario.yaml",
      readFileSync(new URL("scenario.yaml", folderOf(name)), "utf8"),
    );
    const drawn = drawCohort({ ...scenario, injuries: 1_500 }, { seed });
    const folder = temporaryFolder();
    for (const table of ["injuries", "treatments", "imaging", "visits", "sites"] as const)
      writeFileSync(join(folder, `synthetic-${table}.csv`), tableText(table, drawn[table]));
    const plan = asWritten(name);
    const closed = { ...plan, data: { ...plan.data, closed_on: drawn.closedOn } };
    const ours = byToolkit(folder, closed);
    expect(ours.size).toBeGreaterThan(300);
    expect(inOrder(await byQuery(folder, drawn.closedOn))).toEqual(inOrder(ours));
  });
});
