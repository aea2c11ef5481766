import { describe, expect, it } from "vitest";
import { readGrid, readWorkbook } from "../../../src/ingest/grid/index.js";
import { streamTable } from "../../../src/ingest/stream/index.js";
import { readTable } from "../../../src/ingest/table/read-table.js";
import { queryText, tables } from "../../../src/schema/index.js";
import { workbookBytes } from "./workbooks.js";

const encoder = new TextEncoder();
const sites = (rows: number, between = "") =>
  `site_id,name\n${Array.from({ length: rows }, (_, place) => `S${place},"Clinic\n${place}"\n${between}`).join("")}`;
const asTable = (text: string, most: number) =>
  readTable({ file: "sites.csv", bytes: encoder.encode(text) }, tables.sites, { most });

describe("a table of a study has a largest number of rows", () => {
  it("as many are read", () => {
    expect(asTable(sites(3), 3)).toMatchObject({ read: 3, queries: [] });
  });

  it("with one more nothing is used, and what to do is said", () => {
    const { read, rows, queries } = asTable(sites(400), 3);
    expect([read, rows]).toEqual([0, []]);
    const stops = queries.filter(({ severity }) => severity === "stop").map(queryText);
    expect(stops).toEqual([
      "sites.csv: this file has 4 rows or more, but a table of a study may have at most 3 rows.\n  A file of any length can be checked row by row: pulley-outcomes check FILE --table sites. For a study, divide the rows: one file and one study for each site or for each span of years, with all rows of a person in the same file.\n  No data are read until this is corrected.",
    ]);
  });

  it("blank rows, and line ends within cells, are not counted", () => {
    expect(asTable(sites(3, "\n ,\n"), 3).read).toBe(3);
  });

  it("a stream may have any number", async () => {
    const bytes = encoder.encode(sites(400));
    async function* open() {
      yield bytes;
    }
    const options = {
      table: tables.sites,
      rules: [],
      context: { closedOn: null, dateOrder: "year-first" as const },
      onRow: () => undefined,
    };
    expect((await streamTable({ file: "sites.csv", open }, options)).read).toBe(400);
  });

  it("text in a site's own columns: the first row is its header", () => {
    const grid = (rows: number) =>
      readGrid({ file: "a.csv", bytes: encoder.encode(sites(rows, "\n")) }, { most: 3 });
    expect(grid(3).grid?.rows).toHaveLength(4);
    expect(grid(4)).toMatchObject({ grid: null, queries: [{ code: "rows-too-many", severity: "stop" }] });
    // such a file is not in our columns, so that it cannot be checked as a stream
    expect(queryText(grid(4).queries[0]!)).not.toContain("--table");
  });

  it("a workbook", async () => {
    const read = (rows: number) =>
      readWorkbook(
        {
          file: "a.xlsx",
          bytes: workbookBytes({ sheets: [{ name: "A", rows: Array.from({ length: rows }, () => ["x"]) }] }),
        },
        { most: 3 },
      );
    expect((await read(4)).grid?.rows).toHaveLength(4);
    expect(await read(5)).toMatchObject({
      grid: null,
      queries: [{ code: "rows-too-many", severity: "stop", facts: { most: 3, soFar: 4 } }],
    });
  });
});
