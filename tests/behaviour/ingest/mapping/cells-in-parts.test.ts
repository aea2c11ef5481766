import { describe, expect, it } from "vitest";
import type { Grid } from "../../../../src/ingest/index.js";
import { applyMapping, mappingSchema } from "../../../../src/ingest/mapping/index.js";

const header = ["id", "injured", "therapy", "from", "full", "seen"];
const mapping = mappingSchema.parse({
  mapping: "parts",
  date_order: "day-first",
  header_rows: [1],
  columns: {
    person: { from: "id" },
    injury_date: { from: "injured" },
    treatment: { from: "therapy" },
    treatment_start: { from: "from" },
    full: { from: "full" },
    last_contact: { from: "seen" },
  },
});

const gridOf = (rows: readonly (readonly string[])[]): Grid =>
  ({
    file: "parts.csv",
    merged: [],
    rows: [header, ...rows].map((cells, i) => ({ row: i + 1, cells })),
  }) as unknown as Grid;

const readOne = (therapy: string, full: string) => {
  const row = ["P1", "04.03.2024", therapy, "10.03.2024", full, "18.11.2024"];
  const { rows, queries } = applyMapping(gridOf([row]), mapping);
  return { cells: rows[0]!.cells, codes: queries.map(({ code }) => code) };
};

describe("cells that say more than their column holds", () => {
  it.each([
    ["tape 6 wks then ring", "tape", "ring", "2024-04-21"],
    ["Tape 4/52 → Ring", "tape", "ring", "2024-04-07"],
    ["Tape, dann OP", "tape", "surgery", undefined],
    ["tape puis anneau", "tape", "ring", undefined],
    ["tape 6 tyg potem obrączka", "tape", "ring", "2024-04-21"],
    ["tape 6 wkn, daarna ring", "tape", "ring", "2024-04-21"],
    ["ca. 6 Wo Tape → OP", "tape", "surgery", "2024-04-21"],
  ])("%s", (therapy, first, second, change) => {
    const { cells, codes } = readOne(therapy, "");
    expect([cells.treatment, cells.second_treatment, cells.second_start, cells.treatment_end]).toEqual([
      first,
      second,
      change,
      change,
    ]);
    expect(codes).toEqual(["cell-in-parts"]);
  });

  it.each(["tape then ring then surgery", "tape 5/7 then ring", "tape then whatever"])(
    "%s stays as it is written, and is asked about",
    (therapy) => {
      expect(readOne(therapy, "").cells).toMatchObject({ treatment: therapy });
    },
  );

  it.each([
    ["gave up", "gave_up"],
    ["aufgehört", "gave_up"],
    ["abandonné", "gave_up"],
    ["smesso", "gave_up"],
    ["lo dejó", "gave_up"],
    ["gestopt", "gave_up"],
    ["zrezygnował", "gave_up"],
    ["verstorben", "died"],
  ])("%s in the column of a return is kept as that end", (full, end) => {
    const { cells, codes } = readOne("tape", full);
    expect(cells).toMatchObject({ full: "", end_status: end });
    expect(codes).toEqual(["cell-in-parts"]);
  });

  it.each(["not yet", "noch nicht", "pas encore"])(
    "%s is not reached, also where nothing was asked of it",
    (full) => {
      const { cells, codes } = readOne("tape", full);
      expect([cells.full, cells.end_status]).toEqual(["", undefined]);
      expect(codes).toEqual(["cell-in-parts"]);
    },
  );

  it("6/52 is six weeks in any column of returns; 3/12 may be a date", () => {
    expect(readOne("tape", "6/52").cells.full).toBe("2024-04-12/2024-04-18");
    expect(readOne("tape", "3/12").cells.full).toBe("3/12");
  });

  it("3/12 and 5/7 are spans where the column counts times", () => {
    const counted = mappingSchema.parse({
      ...mapping,
      columns: { ...mapping.columns, full: { from: "full", counted: "weeks" } },
    });
    const full = (cell: string) =>
      applyMapping(gridOf([["P1", "04.03.2024", "tape", "10.03.2024", cell, "18.11.2024"]]), counted).rows[0]!
        .cells.full;
    expect(full("5/7")).toBe("2024-03-09");
    expect(full("6")).toBe("2024-04-12/2024-04-18");
  });
});
