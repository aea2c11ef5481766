import { readFileSync } from "node:fs";
import Papa from "papaparse";
import { describe, expect, it } from "vitest";
import { readCohort } from "../../../src/ingest/index.js";
import { queryCodes } from "../../../src/schema/data-query.js";
import type { TableName } from "../../../src/schema/table-names.js";
import { tables } from "../../../src/schema/tables.js";
import { readPlan } from "../../../src/study/read-plan.js";
import { inventCohort, inventDirtySheet, readScenario, type Truth } from "../../../src/synthetic/index.js";
import { spoilings } from "../../../src/synthetic/spoil.js";
import { addedRows } from "../../../src/synthetic/spoil-rows.js";

const cohorts = ["one-clinic", "registry", "three-sites"] as const;
const linked = ["injuries", "treatments", "imaging", "visits", "sites"] as const;

const bytesOf = (path: string): Buffer =>
  readFileSync(new URL(`../../../synthetic-data/${path}`, import.meta.url));
const textOf = (path: string): string => bytesOf(path).toString("utf8");
const scenarioOf = (folder: string) => readScenario(folder, textOf(`${folder}/scenario.yaml`));
const cellsOf = (text: string): Record<string, string>[] =>
  Papa.parse<Record<string, string>>(text, { header: true, skipEmptyLines: true }).data;

/** A committed row with its cells typed by the kind of each field. */
function typed(table: TableName, cells: Record<string, string>): Record<string, unknown> {
  return Object.fromEntries(
    tables[table].fields.map(({ name, kind }) => {
      const cell = cells[name]!;
      if (cell === "") return [name, null];
      if (kind === "number" || kind === "integer" || kind === "bounded") return [name, Number(cell)];
      return [name, kind === "list" ? cell.split("|") : cell];
    }),
  );
}

describe.each(cohorts)("synthetic-data/%s", (folder) => {
  it("is what its scenario gives, byte for byte (truth.json: see the check of the maintenance script)", () => {
    for (const { path, content } of inventCohort(scenarioOf(folder), { draws: 100 })) {
      if (path === "truth.json" || path === "scenario.yaml") continue;
      expect(bytesOf(`${folder}/${path}`).equals(Buffer.from(content)), path).toBe(true);
    }
  });

  it.each(linked)("each row of its %s fits the schema, with every column in order", (table) => {
    const text = textOf(`${folder}/synthetic-${table}.csv`);
    expect(text.split("\n")[0]).toBe(tables[table].fields.map(({ name }) => name).join(","));
    const rows = cellsOf(text);
    expect(rows.length).toBeGreaterThan(0);
    for (const cells of rows) expect(tables[table].row.safeParse(typed(table, cells)).error).toBeUndefined();
  });

  it("has a study file that can be read, marked synthetic, of files that exist", () => {
    const plan = readPlan("study.yaml", textOf(`${folder}/study.yaml`));
    expect(plan.synthetic).toBe(true);
    expect(plan.title).toContain("SYNTHETIC");
    const { closed_on, date_order, ...files } = plan.data;
    expect(date_order).toBe("year-first");
    expect(closed_on).toMatch(/^\d{4}-\d{2}-\d{2}$/);
    for (const file of Object.values(files)) expect(bytesOf(`${folder}/${file}`).length).toBeGreaterThan(0);
  });

  it("states its truth with Monte Carlo standard errors below 0.003 for each share and difference of shares", () => {
    const truth = JSON.parse(textOf(`${folder}/truth.json`)) as Truth;
    const scenario = scenarioOf(folder);
    expect(truth.scenario).toBe(scenario.name);
    expect(truth.conditional_hazard_ratio).toEqual(scenario.return.hazard_ratio);
    const differences = [
      truth.standardised,
      truth.crude,
      ...truth.by_grade.map(({ contrast }) => contrast),
    ].flatMap((contrast) => contrast?.landmark_differences.map(({ difference }) => difference) ?? []);
    const shares = truth.cells.flatMap(({ landmarks }) =>
      landmarks.flatMap(({ returned, returned_if_no_competing_end }) => [
        returned,
        returned_if_no_competing_end,
      ]),
    );
    expect(shares.length).toBeGreaterThan(0);
    for (const { standard_error } of [...differences, ...shares]) expect(standard_error).toBeLessThan(0.003);
  });

  it("is confounded by grade: the crude difference at week 13 is against the ring, the one grade for grade for it", () => {
    const { crude, standardised } = JSON.parse(textOf(`${folder}/truth.json`)) as Truth;
    const atWeek13 = (contrast: Truth["crude"]) =>
      contrast!.landmark_differences.find(({ week }) => week === 13)!.difference.value!;
    expect(atWeek13(crude)).toBeLessThan(-0.02);
    expect(atWeek13(standardised)).toBeGreaterThan(0.02);
  });

  it("describes each table in its data package", () => {
    const { resources } = JSON.parse(textOf(`${folder}/datapackage.json`)) as {
      resources: { path: string; schema: { fields: { name: string; description: string }[] } }[];
    };
    for (const { path, schema } of resources) {
      expect(schema.fields.map(({ name }) => name).join(",")).toBe(
        textOf(`${folder}/${path}`).split("\n")[0],
      );
      for (const { description } of schema.fields) expect(description).not.toBe("");
    }
  });
});

describe("synthetic-data/one-clinic", () => {
  const injuries = cellsOf(textOf("one-clinic/synthetic-injuries.csv"));
  const first = new Map<string, string>();
  for (const row of cellsOf(textOf("one-clinic/synthetic-treatments.csv"))) {
    const { injury_id, treatment } = row as { injury_id: string; treatment: string };
    if (["tape", "ring", "surgery"].includes(treatment) && !first.has(injury_id))
      first.set(injury_id, treatment);
  }

  it.each(["2", "3"])("has at least 5 taped and 5 ringed injuries of grade %s", (grade) => {
    for (const treatment of ["tape", "ring"]) {
      const rows = injuries.filter((row) => row.grade === grade && first.get(row.injury_id!) === treatment);
      expect(rows.length).toBeGreaterThanOrEqual(5);
    }
  });

  it("has two to four persons with two injuries, 10 to 15 % lost, some who gave up, and each kind of date", () => {
    const persons = new Map<string, number>();
    for (const { person_id } of injuries) persons.set(person_id!, (persons.get(person_id!) ?? 0) + 1);
    const twice = [...persons.values()].filter((count) => count === 2).length;
    expect(twice).toBeGreaterThanOrEqual(2);
    expect(twice).toBeLessThanOrEqual(4);
    const lost = injuries.filter((row) => row.end_status === "lost").length / injuries.length;
    expect(lost).toBeGreaterThanOrEqual(0.1);
    expect(lost).toBeLessThanOrEqual(0.15);
    expect(injuries.some((row) => row.gave_up_date !== "")).toBe(true);
    expect(new Set(injuries.map((row) => row.full_climbing_precision))).toEqual(
      new Set(["", "day", "week", "month"]),
    );
    expect(injuries.some((row) => row.full_climbing_not_after !== "")).toBe(true);
  });

  it("as a single sheet has the same injuries, and a study file of its own", () => {
    const sheet = cellsOf(textOf("one-clinic/synthetic-single-sheet.csv"));
    expect(sheet.map(({ person, injury_date }) => [person, injury_date])).toEqual(
      injuries.map(({ person_id, injury_date }) => [person_id, injury_date]),
    );
    for (const cells of sheet)
      expect(tables.single_sheet.row.safeParse(typed("single_sheet", cells)).error).toBeUndefined();
    const plan = readPlan("study-single-sheet.yaml", textOf("one-clinic/study-single-sheet.yaml"));
    expect(plan.data.single_sheet).toBe("synthetic-single-sheet.csv");
  });
});

describe("synthetic-data/dirty-sheet", () => {
  const text = new TextDecoder("windows-1252").decode(bytesOf("dirty-sheet/synthetic-dirty-sheet.csv"));
  const rows = cellsOf(text);
  const wrong = cellsOf(textOf("dirty-sheet/synthetic-whats-wrong.csv"));

  it("is what its scenario gives, byte for byte", () => {
    for (const { path, content } of inventDirtySheet(scenarioOf("dirty-sheet"), { draws: 100 })) {
      if (path === "truth.json" || path === "scenario.yaml") continue;
      expect(bytesOf(`dirty-sheet/${path}`).equals(Buffer.from(content)), path).toBe(true);
    }
  });

  it("is not UTF-8, and names its columns in the first line", () => {
    const decoder = new TextDecoder("utf-8", { fatal: true });
    expect(() => decoder.decode(bytesOf("dirty-sheet/synthetic-dirty-sheet.csv"))).toThrow();
    expect(text.split("\r\n")[0]).toBe(tables.single_sheet.fields.map(({ name }) => name).join(","));
  });

  it("holds every kind of fault, each where the list says, and no row has two", () => {
    const places = wrong.filter(({ row }) => row !== "");
    expect(places).toHaveLength(spoilings.length + addedRows.length);
    expect(new Set(places.map(({ row }) => row)).size).toBe(places.length);
    for (const { row, column, found } of places) {
      // The list is made safe for a spreadsheet: an apostrophe stands before what would start a formula.
      const cell = rows[Number(row) - 2]?.[column!];
      expect([cell, `'${cell}`]).toContain(found);
    }
  });

  it("expects of the reader either nothing or a query that exists", () => {
    const known = new Set<string>([...queryCodes, "accepted"]);
    for (const row of wrong) expect(known).toContain(row.what_the_reader_should_do);
  });

  it("is read as the list says: each fault accepted or asked about, nothing else asked, every row accounted for", () => {
    const plan = readPlan("study.yaml", textOf("dirty-sheet/study.yaml"));
    const { queries, accounts } = readCohort(
      [
        {
          table: "single_sheet",
          file: "sheet.csv",
          bytes: bytesOf("dirty-sheet/synthetic-dirty-sheet.csv"),
        },
      ],
      { closedOn: plan.data.closed_on ?? null, thresholdMm: plan.distance.threshold_mm },
    );
    const asked = queries.map(({ row, code }) => `${row ?? ""} ${code}`);
    const expected = wrong
      .filter((each) => each.what_the_reader_should_do !== "accepted")
      .map((each) => `${each.row} ${each.what_the_reader_should_do}`);
    expect(new Set(asked)).toEqual(new Set(expected));
    expect(accounts[0]?.read).toBe(rows.length);
    expect(accounts[0]!.used! + accounts[0]!.setAside.length!).toBe(rows.length);
  });

  it("leaves the other rows as they were: each lists a person, a readable day and a grade", () => {
    const touched = new Set(wrong.map(({ row }) => row));
    const clean = rows.filter((_, index) => !touched.has(String(index + 2)));
    expect(clean.length).toBeGreaterThan(10);
    for (const row of clean) {
      expect(row.person).toMatch(/^P\d{3}$/);
      expect(row.injury_date).toMatch(/^\d{4}-\d{2}-\d{2}$/);
      expect(["1", "2", "3", "4a", "4b"]).toContain(row.grade);
    }
  });
});
