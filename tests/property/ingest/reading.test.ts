import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readCohort, readTable, type SourceFile, StopError } from "../../../src/ingest/index.js";
import { withoutGuards } from "../../../src/schema/csv-text.js";
import {
  csvText,
  groupQueries,
  type LinkedTableName,
  queryText,
  type Table,
  type TableName,
  tables,
  visibleText,
} from "../../../src/schema/index.js";
import { fileOf, plainRows, study } from "../../behaviour/ingest/sheets.js";

const seed = 20_240_304;
const names = Object.keys(tables) as TableName[];
const linkedNames = names.filter((name): name is LinkedTableName => name !== "single_sheet");

const messyCell = fc.oneof(
  {
    weight: 3,
    arbitrary: fc.constantFrom(
      "",
      "IV",
      "2-3",
      "03/04/2024",
      "2,4",
      ">2",
      "A2|A3",
      "ring",
      "n/a",
      "P09-1",
      "999",
    ),
  },
  { weight: 1, arbitrary: fc.string({ maxLength: 12, unit: "binary" }) },
  {
    weight: 1,
    arbitrary: fc
      .date({ noInvalidDate: true, min: new Date("2023-01-01"), max: new Date("2026-01-01") })
      .map((date) => date.toISOString().slice(0, 10)),
  },
);

/** Rows of a table: the plain one with a few cells replaced by anything. */
function messySheet(table: TableName): fc.Arbitrary<SourceFile> {
  const columns = tables[table].fields.map(({ name }) => name);
  const change = fc.dictionary(fc.constantFrom(...columns), messyCell, { maxKeys: 4 });
  return fc.array(change, { maxLength: 12 }).map((changes) => {
    const rows = changes.map(
      (cells) => ({ ...plainRows[table], ...cells }) as Readonly<Record<string, string>>,
    );
    return fileOf(
      table,
      csvText(
        columns,
        rows.map((row) => columns.map((column) => row[column] ?? "")),
      ),
    );
  });
}

/** Reads, or stops as reading may; anything else that is thrown fails the property. */
function readOrStop(sources: readonly SourceFile[]) {
  try {
    return readCohort(sources, study);
  } catch (error) {
    if (error instanceof StopError) return null;
    throw error;
  }
}

describe("reading", () => {
  it("rows read = rows used + rows set aside, each with its reason, whatever the cells hold", () => {
    let read = 0;
    fc.assert(
      fc.property(fc.tuple(...linkedNames.map(messySheet)), (sources) => {
        const cohort = readOrStop(sources);
        if (cohort === null) return;
        read += 1;
        for (const { table, read: rows, used, setAside } of cohort.accounts) {
          expect(used + setAside.length).toBe(rows);
          const aside = new Set(setAside.map(({ row }) => row));
          const given = cohort.tables[table as LinkedTableName];
          // a treatment whose row is set aside stays as one that was given
          const others = table === "treatments" ? given.filter(({ row }) => aside.has(row)) : [];
          expect(given.length - others.length).toBe(used);
          expect(new Set(setAside.map(({ row }) => row)).size).toBe(setAside.length);
          expect(setAside.every(({ query }) => query.severity === "set-aside")).toBe(true);
        }
      }),
      { seed, numRuns: 100 },
    );
    expect(read, "most of the drawn cohorts can be read").toBeGreaterThan(60);
  });

  it("the single sheet too: a row is used with all its parts or with none", () => {
    fc.assert(
      fc.property(messySheet("single_sheet"), (source) => {
        const cohort = readOrStop([source]);
        if (cohort === null) return;
        const [account] = cohort.accounts;
        const used = new Set(cohort.tables.injuries.map(({ row }) => row));
        expect(used.size).toBe(account?.used);
        expect(used.size + (account?.setAside.length ?? 0)).toBe(account?.read);
        for (const { row } of [...cohort.tables.treatments, ...cohort.tables.imaging])
          expect(used).toContain(row);
        expect(new Set(cohort.tables.injuries.map(({ values }) => values.injury_id)).size).toBe(used.size);
      }),
      { seed, numRuns: 100 },
    );
  });

  it("every typed row is what the table's schema accepts", () => {
    fc.assert(
      fc.property(fc.tuple(...linkedNames.map(messySheet)), (sources) => {
        const cohort = readOrStop(sources);
        for (const name of cohort === null ? [] : linkedNames) {
          for (const { values } of cohort?.tables[name] ?? [])
            expect(tables[name].row.safeParse(values).error).toBeUndefined();
        }
      }),
      { seed, numRuns: 80 },
    );
  });

  it("what is used of the injuries does not depend on the order of their rows", () => {
    fc.assert(
      fc.property(messySheet("injuries"), (source) => {
        const [header = "", ...rows] = new TextDecoder().decode(source.bytes).trimEnd().split("\n");
        if (rows.some((row) => row.includes('"'))) return;
        const usedIn = (lines: readonly string[]) =>
          readOrStop([fileOf("injuries", [header, ...lines].join("\n"))])
            ?.tables.injuries.map(({ values }) => JSON.stringify(values))
            .sort();
        expect(usedIn(rows.toReversed())).toEqual(usedIn(rows));
      }),
      { seed, numRuns: 100 },
    );
  });

  it("never throws anything but StopError, whatever the bytes, and can say every query", () => {
    const header = (table: TableName) =>
      new TextEncoder().encode(tables[table].fields.map(({ name }) => name).join(","));
    const bytes = fc.uint8Array({ maxLength: 400 });
    const anyFile = fc
      .tuple(fc.constantFrom(...names), bytes, fc.boolean())
      .map(([table, body, withHeader]) =>
        fileOf(table, withHeader ? Uint8Array.from([...header(table), 10, ...body]) : body),
      );
    fc.assert(
      fc.property(fc.array(anyFile, { maxLength: 3 }), (sources) => {
        const cohort = readOrStop(sources);
        for (const { first } of groupQueries(cohort?.queries ?? []))
          expect(queryText(first)).not.toContain("undefined");
      }),
      { seed, numRuns: 500 },
    );
  });

  it("text written by csvText comes back as it was, apostrophes before formulas taken away", () => {
    const text = fc
      .oneof(fc.string({ unit: "binary" }), fc.stringMatching(/^[\s",;|\w\r\n'=+@-]*$/))
      .filter((cell) => /^[\P{Cc}\r\n\t]*$/u.test(cell));
    const rows = fc.array(fc.tuple(text, text), { minLength: 1, maxLength: 8 });
    fc.assert(
      fc.property(rows, (cells) => {
        const written = csvText(
          ["site_id", "name", "country"],
          cells.map(([name, country]) => ["s", name, country]),
        );
        const { rows: back, queries } = readTable(fileOf("sites", written), tables.sites as Table);
        expect(queries).toEqual([]);
        const asWritten = (cell: string) => visibleText(cell.replaceAll("\r\n", "\n"));
        expect(
          back.map(({ cells: row }) => [withoutGuards(row.name ?? ""), withoutGuards(row.country ?? "")]),
        ).toEqual(cells.map((row) => row.map(asWritten)));
      }),
      { seed, numRuns: 300 },
    );
  });
});
