import { describe, expect, it } from "vitest";
import { readCohort } from "../../../../src/ingest/cohort/read-cohort.js";
import { readFileAsGrid } from "../../../../src/ingest/grid/index.js";
import { shapeSheet } from "../../../../src/ingest/grid/shape/shape-sheet.js";
import { applyMapping } from "../../../../src/ingest/mapping/apply/apply-mapping.js";
import { sourcesOf } from "../../../../src/ingest/mapping/mapping.js";
import { openMapped } from "../../../../src/ingest/mapping/open-mapped.js";
import { proposeMapping } from "../../../../src/ingest/mapping/propose/propose.js";
import { type Table, tables } from "../../../../src/schema/tables.js";
import { typeRows } from "../../../../src/schema/type-rows.js";
import { workbookBytes } from "../workbooks.js";
import { linkedSheets } from "./linked-sheets.js";

const gridOf = async (text: string) =>
  (await readFileAsGrid({ file: "export.csv", bytes: new TextEncoder().encode(text) })).grid!;

describe("a mapping proposed for a linked table", () => {
  it.each(linkedSheets)("$name: every column found, nothing to ask", async ({ table, text, columns }) => {
    const { mapping } = proposeMapping(shapeSheet(await gridOf(text))!, { name: "trial", table });
    const found = Object.entries(mapping.columns).map(([field, rule]) => [field, sourcesOf(rule)[0]]);
    expect(Object.fromEntries(found)).toEqual(columns);
    expect(mapping.undecided).toEqual([]);
  });

  it.each(linkedSheets)(
    "$name: its rows are typed without a query but those put in",
    async ({ table, text }) => {
      const grid = await gridOf(text);
      const { mapping } = proposeMapping(shapeSheet(grid)!, { name: "trial", table });
      const { rows, queries } = applyMapping(grid, mapping);
      const typed = typeRows(rows, tables[table] as Table);
      const raised = [...queries, ...typed.queries].map(({ row, column }) => `${row} ${column}`);
      // a bound has a column of its own in the table of distances
      expect(raised).toEqual(text.includes(">0,2") ? ["4 distance_mm"] : []);
    },
  );

  it.each([
    { header: "Finger force (N)", cells: ["310", "280"], rule: {}, ours: "310" },
    { header: "Finger force (kg)", cells: ["31", "28"], rule: { unit: "kg" }, ours: "304.00615" },
    { header: "Finger force", cells: ["31", "28"], rule: null, ours: "" },
    { header: "Grip strength", cells: ["38", "42"], rule: {}, ours: "38" },
    { header: "Grip strength (lbs)", cells: ["80", "86"], rule: { unit: "lb" }, ours: "36.2873896" },
    { header: "Grip strength", cells: ["80", "86"], rule: null, ours: "" },
  ])(
    "$header of $cells.0: the unit is read, or asked where the numbers are unusual in ours",
    async (each) => {
      const { header, cells, rule, ours } = each;
      const grid = await gridOf(
        [`Injury;Date;${header}`, ...cells.map((cell, row) => `i${row};2024-03-0${row + 1};${cell}`)].join(
          "\n",
        ),
      );
      const { mapping } = proposeMapping(shapeSheet(grid)!, { name: "trial", table: "visits" });
      const field = header.startsWith("Grip") ? "grip_kg" : "finger_force_n";
      if (rule === null) expect(mapping.undecided[0]?.decides).toEqual([["columns", field, "unit"]]);
      else {
        expect(mapping.columns[field]).toEqual({ from: header, ...rule });
        expect(applyMapping(grid, mapping).rows[0]?.cells[field]).toBe(ours);
      }
    },
  );

  it("four sheets of one workbook, each by its own mapping, are one cohort", async () => {
    const bytes = workbookBytes({
      sheets: [
        { name: "About", rows: [["SYNTHETIC, invented"]] },
        ...["injuries", "treatments", "imaging", "visits"].map((table) => ({
          name: table.toUpperCase(),
          rows: sheets[table as keyof typeof sheets],
        })),
      ],
    });
    const opened = await Promise.all(
      (["injuries", "treatments", "imaging", "visits"] as const).map(async (table) => {
        const source = { table, file: "all.xlsx", bytes };
        const { grid } = await readFileAsGrid(source, { sheet: table.toUpperCase() });
        const { mapping } = proposeMapping(shapeSheet(grid!)!, { name: "trial", table });
        expect(mapping).toMatchObject({ sheet: table.toUpperCase(), undecided: [] });
        return openMapped(source, { mapping });
      }),
    );
    const { accounts, tables: read } = readCohort(opened, { closedOn: null, thresholdMm: 2 });
    expect(accounts.map(({ read: rows, used }) => [rows, used])).toEqual([
      [2, 2],
      [2, 2],
      [2, 2],
      [2, 2],
    ]);
    expect(read.imaging.map(({ values }) => values.distance_mm)).toEqual([2.1, 4.3]);
    expect(read.visits.map(({ values }) => values.full_climbing)).toEqual(["no", "yes"]);
  });
});

/** The same two injuries in four sheets, in words of their own. */
const sheets = {
  injuries: [
    ["Injury no.", "Pat. code", "Hurt on", "Side", "Digit", "Pulley", "Severity", "Last seen"],
    ["i1", "p1", "2024-02-05", "L", "ring", "A2", "III", "2024-12-06"],
    ["i2", "p2", "2024-05-16", "R", "middle", "A4", "II", "2025-04-25"],
  ],
  treatments: [
    ["Injury no.", "Tx", "Begun", "Stopped"],
    ["i1", "ring splint", "2024-02-07", "2024-04-01"],
    ["i2", "taping", "2024-05-20", ""],
  ],
  imaging: [
    ["Injury no.", "Scan date", "Modality", "Pulley", "Load", "Gap (cm)"],
    ["i1", "2024-02-07", "US", "A2", "at rest", 0.21],
    ["i1", "2024-02-07", "US", "A2", "under load", 0.43],
  ],
  visits: [
    ["Injury no.", "Appointment", "Unrestricted climbing", "Pain on loading"],
    ["i1", "2024-03-07", "n", 4],
    ["i2", "2024-09-07", "y", 0],
  ],
};
