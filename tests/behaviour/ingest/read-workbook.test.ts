import { describe, expect, it } from "vitest";
import { readFileAsGrid, readWorkbook } from "../../../src/ingest/grid/index.js";
import { queryText } from "../../../src/schema/index.js";
import { type SheetCell, styled, type WorkbookToMake, workbookBytes } from "./workbooks.js";

const read = (workbook: WorkbookToMake, sheet: string | null = null) =>
  readWorkbook({ file: "clinic.xlsx", bytes: workbookBytes(workbook) }, { sheet });
const oneSheet = (rows: readonly (readonly SheetCell[])[]) => ({ sheets: [{ name: "Patients", rows }] });
const cellsOf = async (workbook: WorkbookToMake) =>
  (await read(workbook)).grid?.rows.map(({ cells }) => cells);

describe("cells of a workbook as text", () => {
  it("text as it stands, numbers to fifteen digits with a point, booleans, blanks", async () => {
    const rows = [
      [" Größe & <Wer> ", 3.4000000000000004, 0.1 + 0.2, null, 1e-7],
      [{ attributes: 't="b"', inner: "<v>1</v>" }, 123456789012345, -2.5, "x", 45355],
    ];
    expect(await cellsOf(oneSheet(rows))).toEqual([
      [" Größe & <Wer> ", "3.4", "0.3", "", "0.0000001"],
      ["TRUE", "123456789012345", "-2.5", "x", "45355"],
    ]);
  });

  it("shared and rich text", async () => {
    const workbook = {
      ...oneSheet([[{ attributes: 't="s"', inner: "<v>1</v>" }]]),
      parts: {
        "xl/sharedStrings.xml":
          "<sst><si><t>a</t></si><si><r><t>ring </t></r><r><t>finger</t></r></si></sst>",
        "xl/_rels/workbook.xml.rels":
          '<Relationships><Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet" Target="/xl/worksheets/sheet1.xml"/></Relationships>',
      },
    };
    expect(await cellsOf(workbook)).toEqual([["ring finger"]]);
  });

  it("a number that its format shows as a code stands as the code: leading zeros are not lost", async () => {
    const formats = ["000", '"P"00', "\\P\\-0000", '00" mm"', '"TPD "0', "00.00", "0"];
    const rows = [
      formats.map((_, place) => styled(7, place + 1)),
      [styled(7.5, 1), styled(12_345, 2), "007"],
    ];
    expect(await cellsOf({ ...oneSheet(rows), formats })).toEqual([
      ["007", "P07", "P-0007", "7", "7", "7", "7"],
      ["7.5", "P12345", "007", "", "", "", ""],
    ]);
  });

  it("a formula stands as its stored result; without one as the formula, which is no blank", async () => {
    const rows = [
      [
        { inner: "<f>A1*2</f><v>4.8</v>" },
        { attributes: 't="str"', inner: "<f>B1</f><v>left</v>" },
        { inner: "<f>A2&amp;1</f>" },
        { attributes: 't="str"', inner: '<f>""</f><v></v>' },
        "x",
      ],
    ];
    expect(await cellsOf(oneSheet(rows))).toEqual([["4.8", "left", "=A2&1", "", "x"]]);
  });

  it("a cell in error stands as its error", async () => {
    const rows = [["who", { attributes: 't="e"', inner: "<f>1/0</f><v>#DIV/0!</v>" }]];
    expect(await cellsOf(oneSheet(rows))).toEqual([["who", "#DIV/0!"]]);
    const below = [["who"], [], [null, { attributes: 't="e"', inner: "<v>#REF!</v>" }]];
    expect(await cellsOf(oneSheet(below))).toEqual([["who"], ["", "#REF!"]]);
  });
});

describe("dates of a workbook", () => {
  const formats = [
    "dd.mm.yyyy",
    "[$-407]d\\. mmmm yyyy;@",
    'dd/mm/yy" Uhr"',
    "yyyy\\-mm\\-dd",
    "0.00",
    "dd.mm.yyyy hh:mm",
    "hh:mm",
    '"Day "0',
  ];
  const day = (style: number) => styled(45_355, style);

  it("a number is a day where its format is one, built in or of the site's own", async () => {
    const rows = [[day(1), day(2), day(3), day(4), day(5), day(8)]];
    expect(await cellsOf({ ...oneSheet(rows), formats })).toEqual([
      ["2024-03-04", "2024-03-04", "2024-03-04", "2024-03-04", "45355", "45355"],
    ]);
    const styles =
      '<styleSheet><cellXfs><xf numFmtId="0"/><xf numFmtId="14"/><xf numFmtId="2"/></cellXfs></styleSheet>';
    const parts = { "xl/styles.xml": styles };
    expect(await cellsOf({ ...oneSheet([[day(1), day(2)]]), parts })).toEqual([["2024-03-04", "45355"]]);
  });

  it("a time of day is kept beside the day; alone it is a time", async () => {
    const rows = [[styled(45_355.604_166_667, 6), styled(0.75, 7), styled(45_355.999_999_9, 6)]];
    expect(await cellsOf({ ...oneSheet(rows), formats })).toEqual([
      ["2024-03-04T14:30", "18:00", "2024-03-05"],
    ]);
  });

  it("a time of day that the format does not show is left out: the day is certain", async () => {
    const rows = [[styled(45_355.6, 1), styled(45_355.6, 2), styled(45_355.6, 3), styled(45_355.6, 6)]];
    expect(await cellsOf({ ...oneSheet(rows), formats })).toEqual([
      ["2024-03-04", "2024-03-04", "2024-03-04", "2024-03-04T14:24"],
    ]);
  });

  it.each(["1", "true"])("the numbering from 1904, written %j", async (yes) => {
    const workbook = { ...oneSheet([[styled(43_893, 1), styled(0, 1)]]), formats };
    expect(await cellsOf({ ...workbook, workbookAttributes: `date1904="${yes}"` })).toEqual([
      ["2024-03-04", "1904-01-01"],
    ]);
  });

  it("numbers that are no day of the calendar are handed on as they are shown", async () => {
    const rows = [[styled(60, 1), styled(59, 1), styled(61, 1), styled(-3, 1)]];
    expect(await cellsOf({ ...oneSheet(rows), formats })).toEqual([
      ["1900-02-29", "1900-02-28", "1900-03-01", "-3"],
    ]);
  });

  it("a date written as text is the day it says, in any time zone", async () => {
    const rows = [[{ attributes: 't="d" s="1"', inner: "<v>2024-03-04T00:00:00</v>" }]];
    expect(await cellsOf({ ...oneSheet(rows), formats })).toEqual([["2024-03-04"]]);
  });
});

describe("sheets, hidden parts, joined cells", () => {
  const notes = { name: "Notes", rows: [["read me"]] };
  const patients = { name: "Patients", rows: [["Who"], ["P1"]] };
  const empty = { name: "Sheet3", rows: [] };

  it("the first sheet that holds anything is read, others that do are mentioned", async () => {
    const { grid, sheets, queries } = await read({ sheets: [empty, patients, notes] });
    expect(grid).toMatchObject({ file: "clinic.xlsx", sheet: "Patients" });
    expect(sheets).toEqual(["Sheet3", "Patients", "Notes"]);
    expect(queries).toMatchObject([{ code: "sheets-not-read", severity: "look-at", found: "Patients" }]);
    expect(queryText(queries[0]!)).toContain('"Notes"');
    expect((await read({ sheets: [empty, patients] })).queries).toEqual([]);
  });

  it("a sheet that is hidden comes after those that are not", async () => {
    const { grid } = await read({ sheets: [{ ...notes, state: "hidden" }, patients] });
    expect(grid?.sheet).toBe("Patients");
  });

  it("a sheet is chosen by name, whatever its letter case", async () => {
    expect((await read({ sheets: [notes, patients] }, "Patients")).grid?.sheet).toBe("Patients");
    expect((await read({ sheets: [notes, patients] }, " patients")).grid?.sheet).toBe("Patients");
    const missing = await read({ sheets: [notes, patients] }, "Injuries");
    expect(missing.grid).toBeNull();
    expect(missing.queries).toMatchObject([{ code: "sheet-missing", severity: "stop", found: "Injuries" }]);
    expect(queryText(missing.queries[0]!)).toContain('"Notes", "Patients"');
    expect((await read({ sheets: [empty, patients] }, "Sheet3")).queries).toMatchObject([
      { code: "sheet-empty" },
    ]);
  });

  it("hidden rows and columns are read and mentioned; what hides nothing is not", async () => {
    const { grid, queries } = await read({
      sheets: [
        {
          name: "Patients",
          rows: [["Who", "When"], ["P1", "x"], [], ["P2", "y"]],
          rowAttributes: { 2: 'hidden="1"', 3: 'hidden="1"', 4: 'hidden="0"' },
          before: '<cols><col min="2" max="2" hidden="1"/><col min="9" max="16384" hidden="true"/></cols>',
        },
      ],
    });
    expect(grid?.rows).toEqual([
      { row: 1, cells: ["Who", "When"], isHidden: false },
      { row: 2, cells: ["P1", "x"], isHidden: true },
      { row: 4, cells: ["P2", "y"], isHidden: false },
    ]);
    expect(grid?.hiddenColumns).toEqual([1]);
    expect(queries).toMatchObject([
      { code: "rows-hidden", severity: "look-at", found: "2" },
      { code: "columns-hidden", severity: "look-at", found: "B" },
    ]);
  });

  it("joined cells are named", async () => {
    const behind = '<mergeCells count="1"><mergeCell ref="B1:C1"/></mergeCells>';
    const { grid } = await read({ sheets: [{ name: "P", rows: [["Who", "TPD"]], behind }] });
    expect(grid?.merged).toEqual([{ firstRow: 1, lastRow: 1, firstColumn: 1, lastColumn: 2 }]);
  });

  it("a file is read by what it is, not by its name", async () => {
    const bytes = workbookBytes({ sheets: [patients] });
    expect((await readFileAsGrid({ file: "clinic.csv", bytes })).grid?.format.kind).toBe("workbook");
    const text = new TextEncoder().encode("Who,When\nP1,x");
    expect((await readFileAsGrid({ file: "clinic.xlsx", bytes: text })).grid?.format.kind).toBe("delimited");
  });
});
