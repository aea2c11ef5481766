import { describe, expect, it } from "vitest";
import { withAddresses } from "../../../src/ingest/grid/workbook/with-addresses.js";

describe("cells without an address (ECMA-376-1:2016, 18.3.1.4: r is optional)", () => {
  it("follow the cell before them, rows without a number the row before", () => {
    const xml =
      '<sheetData><row><c t="s"><v>0</v></c><c/></row><row r="5"><c r="C5"/><c><v>1</v></c></row></sheetData>';
    expect(withAddresses(xml)).toBe(
      '<sheetData><row><c r="A1" t="s"><v>0</v></c><c r="B1"/></row><row r="5"><c r="C5"/><c r="D5"><v>1</v></c></row></sheetData>',
    );
  });

  it("a sheet whose cells all have one is left as it is, columns and comments too", () => {
    const xml =
      '<cols><col min="1" max="2"/></cols><!-- <c> --><sheetData><row r="1"><c s="1" r="A1"/></row></sheetData>';
    expect(withAddresses(xml)).toBe(xml);
  });
});
