import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { readFileAsGrid } from "../../../src/ingest/index.js";
import { linkedTableNames, queryText, type Table, tables } from "../../../src/schema/index.js";
import { deskOn } from "../../../src/workbench/engine/desk.js";
import {
  correction,
  type Draft,
  isChanged,
  newInjury,
  nextVisit,
  withCell,
  withDraft,
  withPart,
} from "../../../src/workbench/engine/record/draft.js";
import { checkedRecord } from "../../../src/workbench/engine/record/findings.js";
import {
  type ClinicRecord,
  countRows,
  emptyRecord,
  withoutRow,
  withRowsBack,
} from "../../../src/workbench/engine/record/record.js";
import { recordTasks } from "../../../src/workbench/engine/record/record-desk.js";
import { command, folderWith } from "../cli/run-command.js";
import { deskMachine } from "./desk-machine.js";

const cohort = fileURLToPath(new URL("../../../synthetic-data/one-clinic/", import.meta.url));
const bytesOf = (name: string) => ({ name, bytes: new Uint8Array(readFileSync(join(cohort, name))) });
const linkedFiles = linkedTableNames.map((table) => bytesOf(`synthetic-${table}.csv`));

const written = (
  record: ClinicRecord,
  draft: Draft,
  cells: Readonly<Record<string, string>>,
  place = 0,
): Draft =>
  Object.entries(cells).reduce(
    (so, [column, text]) => withCell(record, so, { key: draft.parts[place]!.key, column, text }),
    draft,
  );

const injury = {
  person_id: "P01",
  injury_date: "2024-03-04",
  first_visit_date: "2024-03-06",
  hand: "left",
  finger: "ring",
  pulleys: "A2",
  grade: "3",
  last_contact_date: "2024-03-06",
};
const withOne = (): ClinicRecord => {
  const draft = newInjury(emptyRecord);
  return withDraft(emptyRecord, written(emptyRecord, draft, injury));
};
const keyOf = (record: ClinicRecord, id: string): number =>
  record.rows.injuries.find(({ cells }) => cells.injury_id === id)!.key;

describe("the forms of a record", () => {
  it("hold every field of every table once, with its words, bounds and unit: nothing is written beside the schema", async () => {
    const forms = await recordTasks.recordForms();
    for (const name of linkedTableNames) {
      const shown = forms[name].flatMap(({ fields }) => fields);
      const { fields } = tables[name] as Table;
      expect(shown.map((field) => field.name).sort()).toEqual(fields.map((field) => field.name).sort());
      for (const field of fields) {
        const form = shown.find((one) => one.name === field.name)!;
        expect(form.terms.map(({ term }) => term)).toEqual(field.terms ?? []);
        expect([form.isRequired, form.kind]).toEqual([field.required, field.kind]);
        if (field.maximum !== undefined) expect(form.expected).toContain(String(field.maximum));
        if (field.required) expect(form.isUsual).toBe(true);
      }
    }
  });
});

describe("what is written", () => {
  it("names a new injury by its person and a number, until somebody names it otherwise", () => {
    const one = withOne();
    expect(one.rows.injuries[0]!.cells.injury_id).toBe("P01-1");
    const second = written(one, newInjury(one), { person_id: "P01" });
    expect(second.parts[0]!.cells.injury_id).toBe("P01-2");
    const named = written(one, second, { injury_id: "mine", person_id: "P02" });
    expect(named.parts[0]!.cells.injury_id).toBe("mine");
  });

  it("moves the last contact to the day of a later visit, and never back", () => {
    const one = withOne();
    const draft = nextVisit(one, keyOf(one, "P01-1"));
    const typed = ["2", "2024-04-1", "2024-04-15"].reduce(
      (so, text) => withCell(one, so, { key: draft.parts[0]!.key, column: "date", text }),
      draft,
    );
    expect(typed.parts[1]!.cells.last_contact_date).toBe("2024-04-15");
    const earlier = written(one, draft, { date: "2024-02-01" });
    expect(earlier.parts[1]!.cells.last_contact_date).toBe("2024-03-06");
  });

  it("gives a treatment that began the day of the visit, and no row where nothing more was written", () => {
    const one = withOne();
    const visit = written(one, nextVisit(one, keyOf(one, "P01-1")), { date: "2024-04-15" });
    const treated = withPart(one, withPart(one, visit, "treatments"), "imaging");
    const later = written(one, written(one, treated, { treatment: "ring" }, 2), { date: "2024-04-16" });
    const next = withDraft(one, later);
    expect(next.rows.treatments.map(({ cells }) => cells)).toEqual([
      { injury_id: "P01-1", treatment: "ring", start_date: "2024-04-16" },
    ]);
    expect(next.rows.imaging).toEqual([]);
    expect(next.rows.visits.map(({ cells }) => cells.injury_id)).toEqual(["P01-1"]);
    expect(new Set(linkedTableNames.flatMap((table) => next.rows[table].map(({ key }) => key))).size).toBe(
      countRows(next),
    );
  });

  it("keeps the rows of an injury with it when its name is corrected", () => {
    const one = withOne();
    const seen = withDraft(one, written(one, nextVisit(one, keyOf(one, "P01-1")), { date: "2024-04-15" }));
    const draft = correction(seen, { table: "injuries", key: keyOf(seen, "P01-1") });
    const renamed = withDraft(seen, written(seen, draft, { injury_id: "P01-a" }));
    expect(renamed.rows.visits[0]!.cells.injury_id).toBe("P01-a");
    expect(isChanged(seen, draft)).toBe(false);
  });

  it("takes an injury out with its rows, and puts all of them back where they stood", async () => {
    const record = await recordTasks.recordOpen(linkedFiles);
    for (const { key } of [
      record.rows.injuries[0]!,
      record.rows.injuries[30]!,
      record.rows.injuries.at(-1)!,
    ]) {
      const { record: fewer, removed } = withoutRow(record, { table: "injuries", key });
      expect(countRows(fewer)).toBe(countRows(record) - removed.length);
      expect(removed.length).toBeGreaterThan(1);
      expect(withRowsBack(fewer, removed)).toEqual(record);
    }
  });
});

describe("what is said while somebody writes", () => {
  const found = async (cells: Readonly<Record<string, string>>, record = emptyRecord) => {
    const draft = written(record, newInjury(record), cells);
    const { rows } = await recordTasks.recordCheck({ record, draft });
    return rows[draft.parts[0]!.key]!;
  };

  it("a sound row raises nothing", async () => {
    expect(await found({ ...injury, pulley_extents: "complete" })).toEqual({
      isSetAside: false,
      findings: [],
    });
  });

  it("is what ingest says of the same row, word for word", async () => {
    const cells = { ...injury, grade: "IV", age_at_injury: "130", full_climbing_date: "2024-01-01" };
    const { findings, isSetAside } = await found(cells);
    const draft = written(emptyRecord, newInjury(emptyRecord), cells);
    const queries = checkedRecord(withDraft(emptyRecord, draft)).queries.map(({ query }) => queryText(query));
    expect(findings.map(({ column }) => column)).toContain("grade");
    expect(isSetAside).toBe(true);
    for (const { what, correction: how, consequence } of findings)
      expect(queries.some((text) => [what, how, consequence].every((part) => text.includes(part)))).toBe(
        true,
      );
  });

  it("requires what ingest requires, and nothing else", async () => {
    const { findings } = await found({ notes: "x" });
    const blank = findings.filter(({ isBlank }) => isBlank).map(({ column }) => column);
    const required = tables.injuries.fields.filter((field) => field.required).map(({ name }) => name);
    expect(blank.sort()).toEqual([...required].sort());
  });

  it("sees the rows of the same person: a name twice, a visit before the injury", async () => {
    const one = withOne();
    expect(
      (await found({ ...injury, injury_id: "P01-1" }, one)).findings.map(({ what }) => what).join(),
    ).toMatch(/P01-1/);
    const draft = written(one, nextVisit(one, keyOf(one, "P01-1")), { date: "2024-01-15" });
    const { rows } = await recordTasks.recordCheck({ record: one, draft });
    expect(rows[draft.parts[0]!.key]).toMatchObject({ isSetAside: true, findings: [{ column: "date" }] });
  });
});

describe("the file of a record", () => {
  it("opened and saved, loses no row, no cell and no column, known or not", async () => {
    const opened = await recordTasks.recordOpen([
      ...linkedFiles.slice(1),
      {
        name: "injuries.csv",
        bytes: new TextEncoder().encode(
          new TextDecoder()
            .decode(linkedFiles[0]!.bytes)
            .trim()
            .split("\n")
            .map((line, i) => `${line},${i === 0 ? "room" : `0${i}`}`)
            .join("\n"),
        ),
      },
    ]);
    const odd = withDraft(
      opened,
      written(opened, newInjury(opened), {
        person_id: "007",
        injury_date: "2024-3",
        grade: "gr 2-3",
        height_cm: "1,72",
      }),
    );
    const file = await recordTasks.recordFile({ record: odd, name: "ours" });
    expect(file.name).toBe("ours.xlsx");
    const again = await recordTasks.recordOpen([file]);
    const filled = ({ rows }: ClinicRecord) =>
      linkedTableNames.map((table) =>
        rows[table].map(({ cells }) =>
          Object.entries(cells)
            .filter(([, text]) => text !== "")
            .sort(),
        ),
      );
    expect(filled(again)).toEqual(filled(odd));
    expect(again.otherColumns.injuries).toEqual(["room"]);
    expect(await recordTasks.recordFile({ record: again, name: "ours" })).toEqual(file);
  });

  it("is checked and reported by the command line as the tables it came from", async () => {
    const record = await recordTasks.recordOpen(linkedFiles);
    const [study, file] = await recordTasks.recordStudy({ record, name: "synthetic-record" });
    const folder = folderWith({ [study!.name]: study!.bytes, [file!.name]: file!.bytes });
    for (const { name, bytes } of linkedFiles) writeFileSync(join(folder, name), bytes);
    const text = new TextDecoder().decode(study!.bytes);
    const ofTables = linkedTableNames.reduce(
      (so, table) =>
        so
          .replace(`  ${table}: synthetic-record.xlsx`, `  ${table}: synthetic-${table}.csv`)
          .replace(`    ${table}: ${table}\n`, ""),
      text,
    );
    writeFileSync(join(folder, "tables.yaml"), ofTables.replace("  sheets:\n", ""));
    const checked = await command(folder, "check", "study.yaml");
    const before = await command(folder, "check", "tables.yaml");
    const asTables = (said: string) =>
      said.replaceAll(
        /synthetic-record\.xlsx(?: \[(\w+)\])?/g,
        (_, table: string) => `synthetic-${table}.csv`,
      );
    expect(checked.code).toBe(before.code);
    expect(asTables(checked.stdout)).toBe(before.stdout);
    expect((await command(folder, "report", "study.yaml", "--into", "report")).code).toBe(0);
  });

  it("is brought to the path of the workbench alone: its sheets are the tables of the study", async () => {
    const record = await recordTasks.recordOpen(linkedFiles);
    const file = await recordTasks.recordFile({ record, name: "synthetic-record" });
    const desk = deskOn(await deskMachine(), () => undefined);
    expect(await desk.bring([file])).toEqual({ kind: "study", files: [file.name], synthetic: true });
    const { accounts } = await desk.check();
    expect(accounts.map(({ read }) => read)).toEqual(
      linkedTableNames.map((table) => record.rows[table].length),
    );
    expect((await desk.ask({})).injuries).toBe(accounts[0]!.used);
  });

  it("carries lists and checks for whoever opens it in a spreadsheet", async () => {
    const file = await recordTasks.recordFile({ record: withOne(), name: "record" });
    const { grid, sheets } = await readFileAsGrid(
      { file: file.name, bytes: file.bytes },
      { sheet: "injuries" },
    );
    expect(sheets).toEqual(["injuries", "treatments", "imaging", "visits", "words"]);
    expect(grid!.rows).toHaveLength(2);
  });

  it.each([
    ["the sheet with one row per injury", [bytesOf("synthetic-single-sheet.csv")], /one row per injury/],
    ["a table twice", [linkedFiles[0]!, { ...linkedFiles[0]!, name: "again.csv" }], /both hold injuries/],
    [
      "columns of a site's own",
      [{ name: "own.csv", bytes: new TextEncoder().encode("Name,Datum\na,b\n") }],
      /not those of a table/,
    ],
    ["no injuries", [linkedFiles[1]!], /no table of injuries/],
    [
      "cells without a column",
      [
        {
          name: "injuries.csv",
          bytes: new TextEncoder().encode(
            "injury_id,person_id,injury_date,hand,finger,pulleys,grade,last_contact_date\na,b,,,,,,,lost\n",
          ),
        },
      ],
      /without a name|lost/,
    ],
  ])("is not opened where that would lose anything: %s", async (_, files, why) => {
    await expect(recordTasks.recordOpen(files)).rejects.toThrow(why);
  });
});

describe("the list of a record", () => {
  it("shows an injury of which nothing but the person is known, and one that cannot be read", async () => {
    const bare = withDraft(emptyRecord, written(emptyRecord, newInjury(emptyRecord), { person_id: "P07" }));
    const odd = withDraft(
      bare,
      written(bare, newInjury(bare), { ...injury, person_id: "P08", grade: "gr 2-3" }),
    );
    const { injuries } = await recordTasks.recordView(odd);
    expect(injuries.map(({ id, where, grade, isSetAside }) => [id, where, grade, isSetAside])).toEqual([
      ["P07-1", "", "", true],
      ["P08-1", "left ring A2", "gr 2-3", true],
    ]);
  });

  it("shows every injury and every row once, with what ingest asks about them, and rows that name no injury", async () => {
    const record = await recordTasks.recordOpen(linkedFiles);
    const lost = {
      ...record,
      rows: {
        ...record.rows,
        visits: [
          ...record.rows.visits,
          { key: record.nextKey, cells: { injury_id: "nobody", date: "2024-01-01" } },
        ],
      },
      nextKey: record.nextKey + 1,
    };
    const { injuries, loose, accounts } = await recordTasks.recordView(lost);
    const shown = [
      ...injuries.flatMap(({ key, rows }) => [key, ...rows.map((row) => row.key)]),
      ...loose.map(({ key }) => key),
    ];
    const held = (["injuries", "treatments", "imaging", "visits"] as const).flatMap((table) =>
      lost.rows[table].map(({ key }) => key),
    );
    expect(shown.sort((a, b) => a - b)).toEqual(held.sort((a, b) => a - b));
    expect(loose).toHaveLength(1);
    expect(loose[0]!.findings[0]!.what).toContain("nobody");
    for (const { read, used, setAside } of accounts) expect(read).toBe(used + setAside);
    expect(accounts.find(({ table }) => table === "visits")!.setAside).toBe(1);
  });
});
