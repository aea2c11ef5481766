import { describe, expect, it } from "vitest";
import { type Grid, type MergedArea, readGrid, shapeSheet } from "../../../src/ingest/grid/index.js";

const gridOf = (lines: readonly string[], merged: readonly MergedArea[] = []): Grid => {
  const { grid } = readGrid({ file: "sheet.csv", bytes: new TextEncoder().encode(lines.join("\n")) });
  return {
    ...grid!,
    merged,
    format: merged.length === 0 ? grid!.format : { kind: "workbook", dateEpoch: 1900 },
  };
};
const shape = (lines: readonly string[], merged: readonly MergedArea[] = []) => {
  const grid = gridOf(lines, merged);
  const shaped = shapeSheet(grid)!;
  const rows = [...shaped.records, ...shaped.leftOut].map(({ row }) => row).sort((one, other) => one - other);
  expect(rows, "every row is a record or left out").toEqual(grid.rows.map(({ row }) => row));
  return {
    names: shaped.columns.map(({ name }) => name),
    records: shaped.records.map(({ row }) => row),
    leftOut: Object.fromEntries(shaped.leftOut.map(({ row, kind }) => [row, kind])),
    shaped,
  };
};
const area = (firstRow: number, lastRow: number, firstColumn: number, lastColumn: number): MergedArea => ({
  firstRow,
  lastRow,
  firstColumn,
  lastColumn,
});

const body = ["P1;4.3.24;ring;2,4;3,1", "P2;5.3.24;middle;;2,8", "P3;7.3.24;ring;1,9;"];

describe("the header of a sheet", () => {
  it("comes first in a plain sheet", () => {
    const { names, records, leftOut } = shape(["Who;Injured;Finger;TPD rest;TPD loaded", ...body]);
    expect(names).toEqual(["Who", "Injured", "Finger", "TPD rest", "TPD loaded"]);
    expect(records).toEqual([2, 3, 4]);
    expect(leftOut).toEqual({ 1: "header" });
  });

  it("comes below a title, blank rows and a line of facts", () => {
    const { names, leftOut, records } = shape([
      "Pulley list of 2024;;;;",
      "",
      "exported;4.3.2024;;;",
      "",
      "Who;Injured;Finger;TPD rest;TPD loaded",
      ...body,
    ]);
    expect(names[0]).toBe("Who");
    expect(records).toEqual([6, 7, 8]);
    expect(leftOut).toEqual({ 1: "preamble", 3: "preamble", 5: "header" });
  });

  it("of words only, above words only, is the first row", () => {
    const { names } = shape(["who,hand,finger", "ann,left,ring", "ben,right,middle"]);
    expect(names).toEqual(["who", "hand", "finger"]);
  });

  it("a row of groups above is joined with the names below", () => {
    const { names, records } = shape([";;;TPD;", "Who;Injured;Finger;rest;loaded", ...body]);
    expect(names).toEqual(["Who", "Injured", "Finger", "TPD / rest", "TPD / loaded"]);
    expect(records).toEqual([3, 4, 5]);
  });

  it("joined cells in both directions: groups across columns, names over two rows", () => {
    const merged = [area(1, 1, 3, 4), area(1, 2, 0, 0), area(1, 2, 1, 1), area(1, 2, 2, 2)];
    const { names } = shape(["Who;Injured;Finger;TPD;", ";;;rest;loaded", ...body], merged);
    expect(names).toEqual(["Who", "Injured", "Finger", "TPD / rest", "TPD / loaded"]);
  });

  it("a group ends where its joined cells end", () => {
    const merged = [area(1, 1, 1, 2)];
    const { names } = shape([";TPD;;", "Who;rest;loaded;Grade", "P1;2,4;3,1;3", "P2;2,2;2,9;2"], merged);
    expect(names).toEqual(["Who", "TPD / rest", "TPD / loaded", "Grade"]);
  });

  it("a title joined across the whole table is a title", () => {
    const { names, leftOut } = shape(
      ["Pulley list;;;;", "Who;Injured;Finger;TPD rest;TPD loaded", ...body],
      [area(1, 1, 0, 4)],
    );
    expect(names[0]).toBe("Who");
    expect(leftOut[1]).toBe("preamble");
  });

  it("names that stand twice are numbered, blank ones go by their letters, empty columns at the end are none", () => {
    const { names } = shape(["Who;TPD;TPD;;;", "P1;2,4;3,1;x;;", "P2;2,4;3,1;;;"]);
    expect(names).toEqual(["Who", "TPD", "TPD (2)", "column D"]);
  });

  it("may be stated", () => {
    const grid = gridOf(["1;2;3", "a;b;c", "4;5;6"]);
    expect(shapeSheet(grid, { headerRows: [1] })?.columns.map(({ name }) => name)).toEqual(["1", "2", "3"]);
    expect(shapeSheet(grid, { headerRows: [9] })).toBeNull();
  });

  it("is not found where nothing looks like one", () => {
    expect(shapeSheet(gridOf(["1;2;3", "4;5;6", "7;8;9"]))).toBeNull();
  });
});

describe("rows that are no records", () => {
  it("a row of units below the header, kept with the columns", () => {
    const { leftOut, shaped } = shape([
      "Who;Injured;Finger;TPD rest;TPD loaded",
      ";dd.mm.yy;;mm;mm",
      ...body,
    ]);
    expect(leftOut).toEqual({ 1: "header", 2: "units" });
    expect(shaped.columns.map(({ unit }) => unit)).toEqual([null, "dd.mm.yy", null, "mm", "mm"]);
  });

  it("a header that comes again, totals, and notes below the table", () => {
    const header = "Who;Injured;Finger;TPD rest;TPD loaded";
    const { records, leftOut } = shape([
      header,
      ...body,
      header,
      "P4;9.3.24;ring;2,4;3,1",
      "Mean;;;2,2;3,0",
      "n = 4;;;;",
      "",
      "* measured with tape on;;;;",
      "Distances by ultrasound, first scan;;;;",
    ]);
    expect(records).toEqual([2, 3, 4, 6]);
    expect(leftOut).toEqual({
      1: "header",
      5: "header",
      7: "totals",
      8: "totals",
      10: "footnote",
      11: "footnote",
    });
  });

  it("a person called like a total, with dates, stays a record; so does one of whom only the name is known", () => {
    const { records } = shape([
      "Who;Injured;Finger;TPD rest;TPD loaded",
      ...body,
      "Max;1.2.24;ring;;",
      "P9;;;;",
    ]);
    expect(records).toEqual([2, 3, 4, 5, 6]);
  });
});

describe("joined cells among the records", () => {
  it("a value beside several rows is that of each; one across columns stays in the first", () => {
    const { shaped } = shape(
      ["Who;Injured;Finger;Easy;Full", "P1;4.3.24;ring;1.5.24;", ";;middle;lost;", "P2;5.3.24;ring;;"],
      [area(2, 3, 0, 0), area(2, 3, 1, 1), area(3, 3, 3, 4)],
    );
    expect(shaped.records.map(({ cells }) => cells.join(";"))).toEqual([
      "P1;4.3.24;ring;1.5.24;",
      "P1;4.3.24;middle;lost;",
      "P2;5.3.24;ring;;",
    ]);
    expect(shaped.joined).toEqual([area(2, 3, 0, 0), area(2, 3, 1, 1)]);
  });

  it("an area that claims a million rows costs no more than the rows there are", () => {
    const { shaped } = shape(["Who;When;What", "P1;4.3.24;x", ";5.3.24;y"], [area(2, 999_999_999, 0, 0)]);
    expect(shaped.records.map(({ cells }) => cells[0])).toEqual(["P1", "P1"]);
  });
});
