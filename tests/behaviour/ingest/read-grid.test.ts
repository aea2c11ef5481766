import { describe, expect, it } from "vitest";
import { readGrid } from "../../../src/ingest/grid/index.js";
import { queryText } from "../../../src/schema/index.js";

const bytesOf = (text: string) => new TextEncoder().encode(text);
const read = (content: string | Uint8Array) =>
  readGrid({ file: "export.csv", bytes: typeof content === "string" ? bytesOf(content) : content });
const cellsOf = (content: string | Uint8Array) => read(content).grid?.rows.map(({ cells }) => cells);

const utf16 = (text: string, order: "le" | "be", mark: "" | "\ufeff") =>
  Uint8Array.from(
    [...(mark + text)].flatMap((character) => {
      const unit = character.charCodeAt(0);
      return order === "le" ? [unit & 255, unit >> 8] : [unit >> 8, unit & 255];
    }),
  );

describe("the delimiter, whatever the columns are called", () => {
  it.each([
    ["comma", ",", "Wer,Wann,TPD\nP1,4.3.24,2.4\nP2,5.3.24,3.1"],
    ["semicolon, with decimal commas", ";", "Wer;Wann;TPD\nP1;4.3.24;2,4\nP2;5.3.24;3,1"],
    ["semicolon, a decimal comma in every row", ";", "Wer;TPD\nP1;2,4\nP2;3,1\nP3;2,2\nP4;2,9"],
    ["tab, with commas in the words", "\t", "Wer\tNotiz\nP1\ta, b\nP2\tc, d"],
    ["pipe", "|", "Wer|Wann\nP1|4.3.24\nP2|5.3.24"],
    ["comma, with lists of pulleys", ",", 'Wer,Band\nP1,A2|A3\nP2,"A2|A3"\nP3,A4'],
    [
      "comma, with a title above and a note below",
      ",",
      "Export 2024\n\nWer,Wann\nP1,4.3.24\nNote; see chart",
    ],
    ["comma, when there is one column", ",", "Wer\nP1\nP2"],
    ["as the sep= line says", "|", "sep=|\nWer|a;b;c\nP1|a;b;c"],
  ])("%s", (_, delimiter, text) => {
    expect(read(text).grid?.format).toMatchObject({ kind: "delimited", delimiter });
  });
});

describe("rows as the spreadsheet shows them", () => {
  it("blank rows are left out and keep their numbers; a line break in a cell begins no row", () => {
    const rows = read('Who,Note\n\nP1,"first\r\nsecond"\n,\nP2,x\n').grid?.rows;
    expect(rows).toEqual([
      { row: 1, cells: ["Who", "Note"], isHidden: false },
      { row: 3, cells: ["P1", "first\r\nsecond"], isHidden: false },
      { row: 5, cells: ["P2", "x"], isHidden: false },
    ]);
  });

  it.each(["\n", "\r\n", "\r"])("line ends %j", (lineEnd) => {
    expect(cellsOf(["Who,When", "P1,x", "P2,y"].join(lineEnd))).toEqual([
      ["Who", "When"],
      ["P1", "x"],
      ["P2", "y"],
    ]);
  });
});

describe("encodings", () => {
  const text = "Größe;Wer\n2,4;Anaïs\n3,1;Zoë Müller";
  it.each([
    ["UTF-8", bytesOf(text), "utf-8"],
    ["UTF-8 with mark", bytesOf(`\ufeff${text}`), "utf-8"],
    ["UTF-16 LE with mark", utf16(text, "le", "\ufeff"), "utf-16"],
    ["UTF-16 BE with mark", utf16(text, "be", "\ufeff"), "utf-16"],
    ["UTF-16 LE without mark", utf16(text, "le", ""), "utf-16"],
    ["UTF-16 BE without mark", utf16(text, "be", ""), "utf-16"],
    ["Windows-1252", Uint8Array.from(text, (character) => character.charCodeAt(0)), "windows-1252"],
  ])("%s", (_, bytes, encoding) => {
    expect(cellsOf(bytes)).toEqual([
      ["Größe", "Wer"],
      ["2,4", "Anaïs"],
      ["3,1", "Zoë Müller"],
    ]);
    expect(read(bytes).grid?.format).toMatchObject({ encoding });
  });
});

describe("what cannot be read is said", () => {
  it.each([
    ["nothing", "", "file-empty"],
    ["a quotation mark that closes nowhere", 'a,b\n"c,d\n', "unbalanced-quote"],
    ["zero bytes", Uint8Array.from([65, 66, 0, 67]), "file-not-text"],
  ])("%s", (_, content, code) => {
    const { grid, queries } = read(content);
    expect(grid).toBeNull();
    expect(queries).toMatchObject([{ code, severity: "stop" }]);
    expect(queryText(queries[0]!)).toContain("export.csv");
  });
});
