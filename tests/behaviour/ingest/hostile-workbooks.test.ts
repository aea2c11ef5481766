import { strToU8, zipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { readWorkbook } from "../../../src/ingest/grid/index.js";
import { queryText } from "../../../src/schema/index.js";
import { workbookBytes, workbookParts } from "./workbooks.js";

const plain = { sheets: [{ name: "P", rows: [["Who"], ["P1"]] }] };
const read = (bytes: Uint8Array) => readWorkbook({ file: "clinic.xlsx", bytes });

/** What is asked about bytes that must not be read, in codes and words. */
async function refusal(bytes: Uint8Array): Promise<{ readonly code: string; readonly text: string }> {
  const { grid, queries } = await read(bytes);
  expect(grid).toBeNull();
  expect(queries).toMatchObject([{ severity: "stop" }]);
  return { code: queries[0]!.code, text: queryText(queries[0]!) };
}

const withParts = (parts: Readonly<Record<string, string>>) => workbookBytes({ ...plain, parts });
const sheet = (inner: string) => `<worksheet>${inner}</worksheet>`;
const utf16 = (text: string) => Uint8Array.from([...text].flatMap((letter) => [letter.charCodeAt(0), 0]));
const compound = (stream: string) =>
  Uint8Array.from([0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1, ...new Uint8Array(504), ...utf16(stream)]);

/** The archive with one number of one directory entry changed: claims that are not true. */
function withClaim(bytes: Uint8Array, { at, value }: { at: number; value: number }): Uint8Array {
  const changed = bytes.slice();
  const view = new DataView(changed.buffer);
  for (let place = 0; place < changed.length - 46; place++) {
    if (view.getUint32(place, true) === 0x02014b50) view.setUint32(place + at, value, true);
  }
  return changed;
}

describe("files that are no workbook of the kind that is read, with what to do", () => {
  it.each([
    ["an older workbook", compound("Workbook"), "workbook-other-kind", "older workbook (.xls)"],
    ["an encrypted workbook", compound("EncryptedPackage"), "workbook-encrypted", "remove the password"],
    [
      "a binary workbook",
      zipSync({ "xl/workbook.bin": strToU8("x") }),
      "workbook-other-kind",
      "binary workbook (.xlsb)",
    ],
    [
      "an OpenDocument file",
      zipSync({ mimetype: strToU8("x"), "content.xml": strToU8("x") }),
      "workbook-other-kind",
      "OpenDocument file (.ods)",
    ],
    ["another archive", zipSync({ "a.txt": strToU8("x") }), "workbook-other-kind", "archive"],
    ["an archive cut off", workbookBytes(plain).slice(0, 700), "workbook-damaged", "save it again"],
    ["the beginning of an archive", Uint8Array.from([0x50, 0x4b, 3, 4]), "workbook-damaged", "save it again"],
    ["nothing behind the beginning of an archive", Uint8Array.from([0x50, 0x4b]), "workbook-damaged", "save"],
  ])("%s", async (_, bytes, code, words) => {
    const { code: found, text } = await refusal(bytes);
    expect(found).toBe(code);
    expect(text).toContain(words);
  });

  it("an archive whose entries are encrypted", async () => {
    const bytes = withClaim(workbookBytes(plain), { at: 8, value: (8 << 16) | 1 });
    expect((await refusal(bytes)).code).toBe("workbook-encrypted");
  });
});

describe("archives that would do harm", () => {
  it("a part of 30 megabytes of the same letter is not unpacked to its end", async () => {
    const bomb = zipSync({
      ...workbookParts(plain),
      "xl/worksheets/sheet9.xml": new Uint8Array(30_000_000),
    });
    expect(bomb.length).toBeLessThan(200_000);
    const { code, text } = await refusal(bomb);
    expect(code).toBe("workbook-too-large");
    expect(text).toContain("200 times its size");
  });

  it.each([
    ["a smaller size than there is", { at: 24, value: 10 }],
    ["a size of a gigabyte", { at: 24, value: 1_000_000_000 }],
    ["another check sum", { at: 16, value: 0 }],
    ["a place beyond the file", { at: 42, value: 0x7fffffff }],
    ["more packed bytes than there are", { at: 20, value: 0x7fffffff }],
    ["a way of packing that is not known", { at: 10, value: 99 }],
  ])("an entry that claims %s", async (_, claim) => {
    expect((await refusal(withClaim(workbookBytes(plain), claim))).code).toBe("workbook-damaged");
  });

  it.each([
    ["../../outside.xml"],
    ["/etc/passwd"],
    ["C:\\outside.xml"],
    ["xl\\..\\outside.xml"],
    ["xl/a\u0000.xml"],
  ])("a part called %j", async (name) => {
    const { code, text } = await refusal(zipSync({ ...workbookParts(plain), [name]: strToU8("x") }));
    expect(code).toBe("workbook-unsafe");
    expect(text).toContain("whose name is a path");
  });

  it("two parts whose names differ in letter case only", async () => {
    const parts = { ...workbookParts(plain), "XL/workbook.xml": strToU8("<x/>") };
    expect((await refusal(zipSync(parts))).code).toBe("workbook-unsafe");
  });

  it("parts beyond number", async () => {
    const many = Object.fromEntries(Array.from({ length: 10_001 }, (_, n) => [`a/${n}`, new Uint8Array()]));
    expect((await refusal(zipSync({ ...workbookParts(plain), ...many }, { level: 0 }))).code).toBe(
      "workbook-too-large",
    );
  });

  it.each(["xl/workbook.xml", "xl/sharedStrings.xml", "xl/worksheets/sheet1.xml", "xl/styles.xml"])(
    "entities within entities in %s",
    async (part) => {
      const bomb = `<?xml version="1.0"?><!DOCTYPE x [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;&a;">]><x>&b;</x>`;
      expect((await refusal(withParts({ [part]: bomb }))).code).toBe("workbook-unsafe");
    },
  );

  it("a declaration hidden in another encoding", async () => {
    const part = utf16('<!DOCTYPE x [<!ENTITY a "aaaa">]><x>&a;</x>');
    const bytes = workbookBytes({ ...plain, parts: { "xl/sharedStrings.xml": part } });
    expect((await refusal(bytes)).code).toBe("workbook-damaged");
  });

  it.each([
    [
      "a row beyond the last",
      '<sheetData><row r="99999999999"><c r="A99999999"><v>1</v></c></row></sheetData>',
    ],
    ["a column beyond the last", '<sheetData><row r="1"><c r="ZZZZZZ1"><v>1</v></c></row></sheetData>'],
    [
      "two cells that span the whole sheet",
      '<sheetData><row r="1"><c r="XFD1"><v>1</v></c></row><row r="1048576"><c r="A1048576"><v>1</v></c></row></sheetData>',
    ],
  ])("a sheet with %s", async (_, inner) => {
    expect((await refusal(withParts({ "xl/worksheets/sheet1.xml": sheet(inner) }))).code).toBe(
      "workbook-too-large",
    );
  });
});

describe("workbooks that hold nonsense", () => {
  it.each([
    ["no end", "<sheetData><row r='1'><c r='A1'><v>1"],
    ["rows out of order", '<sheetData><row r="2"><c r="A2"><v>1</v></c></row><row r="1"/></sheetData>'],
    ["a text that is not there", '<sheetData><row r="1"><c r="A1" t="s"><v>7</v></c></row></sheetData>'],
    ["a kind that is not known", '<sheetData><row r="1"><c r="A1" t="zz"><v>7</v></c></row></sheetData>'],
  ])("a sheet with %s", async (_, inner) => {
    const { grid, queries } = await read(withParts({ "xl/worksheets/sheet1.xml": sheet(inner) }));
    expect(grid).toBeNull();
    expect(queries).toMatchObject([{ code: "workbook-damaged" }]);
  });

  it.each([
    ["no sheets", { "xl/workbook.xml": "<workbook/>" }],
    ["sheets that lead nowhere", { "xl/_rels/workbook.xml.rels": "<Relationships/>" }],
    [
      "names from objects",
      { "xl/workbook.xml": '<workbook><sheets><sheet name="__proto__"/></sheets></workbook>' },
    ],
  ])("%s: nothing to read", async (_, parts) => {
    expect((await refusal(withParts(parts))).code).toBe("file-empty");
  });

  it("cells that look like code are text like any other", async () => {
    const rows = [
      ["__proto__", "constructor"],
      ["=cmd()", "<script>"],
      ["\u202egnp.exe", "a\u200bb"],
    ];
    const { grid } = await read(workbookBytes({ sheets: [{ name: "P", rows }] }));
    expect(grid?.rows.map(({ cells }) => cells)).toEqual(rows);
  });
});
