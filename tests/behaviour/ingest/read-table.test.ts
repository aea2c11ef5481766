import { describe, expect, it } from "vitest";
import { decodeText, readTable } from "../../../src/ingest/index.js";
import { queryText, type Table, type TableName, tables } from "../../../src/schema/index.js";
import { codesOf, fileOf } from "./sheets.js";

const read = (table: TableName, text: string | Uint8Array) =>
  readTable(fileOf(table, text), tables[table] as Table);
const rowsOf = (text: string) =>
  read("sites", text).rows.map(
    ({ row, cells }): Readonly<Record<string, string | number>> => ({ row, ...cells }),
  );

describe("bytes to text", () => {
  const utf16 = (text: string, order: "le" | "be") => {
    const units = [...`\ufeff${text}`].map((character) => character.charCodeAt(0));
    return Uint8Array.from(
      units.flatMap((unit) => (order === "le" ? [unit & 255, unit >> 8] : [unit >> 8, unit & 255])),
    );
  };

  it.each([
    ["UTF-8", new TextEncoder().encode("site_id\nZürich ☂")],
    ["UTF-8 with byte order mark", new TextEncoder().encode("\ufeffsite_id\nZürich ☂")],
    ["UTF-16, small end first", utf16("site_id\nZürich ☂", "le")],
    ["UTF-16, big end first", utf16("site_id\nZürich ☂", "be")],
  ])("%s", (_, bytes) => {
    expect(decodeText(bytes)).toMatchObject({ text: "site_id\nZürich ☂" });
    expect(read("sites", bytes)).toMatchObject({
      rows: [{ row: 2, cells: { site_id: "Zürich ☂" } }],
      queries: [],
    });
  });

  it("Windows-1252, with a word about it: 0x92 is a closing quotation mark, 0x80 the euro", () => {
    const bytes = Uint8Array.from([...new TextEncoder().encode("site_id\nL"), 0x92, 0xe9, 0x80]);
    const { rows, queries } = read("sites", bytes);
    expect(rows[0]?.cells.site_id).toBe("L’é€");
    expect(queries).toMatchObject([{ code: "file-not-utf8", severity: "look-at" }]);
  });

  it.each([
    ["a spreadsheet file (xlsx, ods)", [0x50, 0x4b, 0x03, 0x04, 20, 0]],
    ["a PDF file", [...new TextEncoder().encode("%PDF-1.7\n")]],
    ["NUL bytes", [65, 0, 66, 0]],
    ["control characters", [...new TextEncoder().encode("\u0001\u0002\u0003abc")]],
  ])("not text: %s", (what, bytes) => {
    const { queries, read: count } = read("injuries", Uint8Array.from(bytes));
    expect(count).toBe(0);
    expect(queries).toMatchObject([{ code: "file-not-text", severity: "stop" }]);
    expect(queryText(queries[0]!)).toContain(what);
  });
});

describe("delimiter and header", () => {
  it.each([",", ";", "\t", "|"])("columns separated by %j", (delimiter) => {
    const text = [
      ["site_id", "name", "threshold_mm"],
      ["site-a", "Site A", delimiter === "," ? "2" : "2,5"],
    ];
    expect(rowsOf(text.map((cells) => cells.join(delimiter)).join("\n"))).toEqual([
      { row: 2, site_id: "site-a", name: "Site A", threshold_mm: delimiter === "," ? "2" : "2,5" },
    ]);
  });

  it("decimal commas cannot outvote the header", () => {
    const rows = rowsOf("site_id;threshold_mm\na;2,1\nb;2,2\nc;2,3\n");
    expect(rows.map(({ threshold_mm }) => threshold_mm)).toEqual(["2,1", "2,2", "2,3"]);
  });

  it("the line by which a spreadsheet tells the delimiter is no row", () => {
    expect(rowsOf("sep=;\r\nsite_id;name\r\na;b")).toEqual([{ row: 2, site_id: "a", name: "b" }]);
  });

  it("names match whatever their case, with spaces or hyphens for underscores", () => {
    expect(rowsOf(" Site ID ,THRESHOLD-mm,Finger\u00a0counting\na,2,with_thumb")).toEqual([
      { row: 2, site_id: "a", threshold_mm: "2", finger_counting: "with_thumb" },
    ]);
  });

  it("a missing column that must be there stops, with the near name that is there", () => {
    const { queries } = read("treatments", "injuri_id,treatment,start_date,dose\nP1,ring,2024-03-10,x");
    expect(queries.filter(({ severity }) => severity === "stop")).toMatchObject([
      { code: "column-missing", column: "injury_id", facts: { near: "injuri_id" } },
    ]);
    expect(queryText(queries[0]!)).toContain('Did you mean the column "injuri_id"? Rename it.');
  });

  it("an unknown column is named and not read; a near name is offered", () => {
    const { queries, rows } = read("sites", "site_id,shoe_size,contry\na,42,x");
    expect(queries).toMatchObject([
      { code: "column-unknown", severity: "look-at", column: "shoe_size" },
      { code: "column-unknown", severity: "look-at", column: "contry", facts: { near: "country" } },
    ]);
    expect(rows[0]?.cells).toEqual({ site_id: "a" });
  });

  it("a column that stands twice stops, however it is spelt", () => {
    const { queries } = read("sites", "site_id,Site ID\na,b");
    expect(queries).toMatchObject([{ code: "column-twice", severity: "stop", column: "Site ID" }]);
  });

  it("columns named like parts of an object are only unknown columns", () => {
    const { queries, rows } = read("sites", "site_id,__proto__,constructor,toString\na,x,y,z");
    expect(codesOf(queries)).toEqual(["column-unknown", "column-unknown", "column-unknown"]);
    expect(Object.keys(rows[0]!.cells)).toEqual(["site_id"]);
    expect(Object.getPrototypeOf({})).toBe(Object.prototype);
    expect(({} as Record<string, unknown>).x).toBeUndefined();
  });

  it("one column, and none that is known: the delimiter is asked about", () => {
    const { queries } = read("injuries", "injury_id:person_id:hand\n1:2:left\n");
    expect(queries).toMatchObject([{ code: "wrong-delimiter", severity: "stop", row: 1 }]);
  });

  it("a title above the header is pointed out with the row of the header", () => {
    const { queries } = read(
      "treatments",
      "Treatments of 2024,,\n\ninjury_id,treatment,start_date\nP1,ring,2024-03-10",
    );
    expect(queries).toMatchObject([{ code: "header-not-first", facts: { header_row: 3 } }]);
  });
});

describe("rows", () => {
  it("are numbered as a spreadsheet shows them: blank rows count, line breaks within a cell do not", () => {
    expect(rowsOf('site_id,name\n\na,"one\ntwo\r\nthree"\n,\n  \nb,x\n\n')).toEqual([
      { row: 3, site_id: "a", name: "one\ntwo\r\nthree" },
      { row: 6, site_id: "b", name: "x" },
    ]);
  });

  it.each(["\n", "\r\n", "\r"])("line ends %j", (end) => {
    expect(rowsOf(["site_id,name", 'a,"x ""y"""', 'b,5" tape', ""].join(end))).toEqual([
      { row: 2, site_id: "a", name: 'x "y"' },
      { row: 3, site_id: "b", name: '5" tape' },
    ]);
  });

  it("mixed line ends do not join rows", () => {
    expect(rowsOf('site_id,name\r\na,"1"\nb,2\rc,"3"\r\n').map(({ row, site_id }) => [row, site_id])).toEqual(
      [
        [2, "a"],
        [3, "b"],
        [4, "c"],
      ],
    );
  });

  it("the header may come after blank rows", () => {
    expect(rowsOf("\n,,\nsite_id\na")).toEqual([{ row: 4, site_id: "a" }]);
  });

  it("a cell beyond the last column sets the row aside; blank ones do not", () => {
    const { rows, setAside, read: count } = read("sites", "site_id,name\na,b,c\nd,e,,\n");
    expect(count).toBe(2);
    expect(rows).toMatchObject([{ row: 3, cells: { site_id: "d" } }]);
    expect(setAside).toMatchObject([{ row: 2, query: { code: "row-too-long", found: "c" } }]);
  });

  it("a short row has blank cells at its end; one that must be filled is pointed out", () => {
    const { rows, queries } = read(
      "treatments",
      "injury_id,start_date,treatment,kind\nP1,2024-03-10,ring\nP2,2024-03-10",
    );
    expect(rows.map(({ cells }) => cells)).toEqual([
      { injury_id: "P1", treatment: "ring", start_date: "2024-03-10", kind: "" },
      { injury_id: "P2", treatment: "", start_date: "2024-03-10", kind: "" },
    ]);
    expect(queries).toMatchObject([{ code: "row-too-short", row: 3, facts: { missing: "treatment" } }]);
  });

  it.each([
    ["never closed", 'site_id,name\na,x\n\nb,"y\nc,z\n', 4],
    ["closed in the middle of a cell", 'site_id,name\na,x\nb,"y" z\nc,z\n', 3],
  ])("a quotation mark %s stops, with the row where it opened", (_, text, row) => {
    expect(read("sites", text).queries).toMatchObject([{ code: "unbalanced-quote", severity: "stop", row }]);
  });

  it.each([
    ["", "file-empty", "stop", "injuries"],
    [" \n\n", "file-empty", "stop", "injuries"],
    ["\ufeff", "file-empty", "stop", "sites"],
    ["site_id\n\n", "file-header-only", "look-at", "sites"],
  ] as const)("%j: %s, %s", (text, code, severity, table) => {
    expect(read(table, text)).toMatchObject({ read: 0, rows: [], queries: [{ code, severity }] });
  });

  it("injuries without a row stop the run", () => {
    const header = tables.injuries.fields.map(({ name }) => name).join(",");
    expect(read("injuries", `${header}\n`).queries).toMatchObject([
      { code: "file-header-only", severity: "stop" },
    ]);
  });
});

describe("garbage", () => {
  const size = 10_000_000;
  it.each([
    ["bytes of every kind", (place: number) => (place * 2_654_435_761) >>> 24],
    ["letters in one line", (place: number) => 97 + (((place * 2_654_435_761) >>> 24) % 26)],
    [
      "letters, commas and quotation marks",
      (place: number) => 'ab,"\n;'.charCodeAt(((place * 2_654_435_761) >>> 24) % 6),
    ],
  ])("10 MB of %s stop with few words", (_, byteAt) => {
    const bytes = new Uint8Array(size);
    for (let place = 0; place < size; place++) bytes[place] = byteAt(place);
    const { rows, queries } = read("injuries", bytes);
    expect(rows).toEqual([]);
    expect(queries.some(({ severity }) => severity === "stop")).toBe(true);
    expect(queries.map(queryText).join("").length).toBeLessThan(20_000);
  });
});
