import { describe, expect, it } from "vitest";
import { decodeText, readTable } from "../../../src/ingest/index.js";
import { type Table, tables } from "../../../src/schema/index.js";
import { fileOf } from "../../behaviour/ingest/sheets.js";

/** Printed by the codec cp1252 of Python 3.11.7; the same as in the WHATWG Encoding Standard, index windows-1252. */
const codePoints = [
  [0x80, 0x20ac],
  [0x82, 0x201a],
  [0x83, 0x0192],
  [0x84, 0x201e],
  [0x85, 0x2026],
  [0x86, 0x2020],
  [0x87, 0x2021],
  [0x88, 0x02c6],
  [0x89, 0x2030],
  [0x8a, 0x0160],
  [0x8b, 0x2039],
  [0x8c, 0x0152],
  [0x8e, 0x017d],
  [0x91, 0x2018],
  [0x92, 0x2019],
  [0x93, 0x201c],
  [0x94, 0x201d],
  [0x95, 0x2022],
  [0x96, 0x2013],
  [0x97, 0x2014],
  [0x98, 0x02dc],
  [0x99, 0x2122],
  [0x9a, 0x0161],
  [0x9b, 0x203a],
  [0x9c, 0x0153],
  [0x9e, 0x017e],
  [0x9f, 0x0178],
] as const;

describe("Windows-1252", () => {
  it.each(codePoints)("byte %i is code point %i (codec cp1252 of Python)", (byte, codePoint) => {
    // 0xe9 before a small letter is no UTF-8, so that the fallback is taken
    const decoded = decodeText(Uint8Array.from([0xe9, 0x61, byte]));
    expect(decoded).toEqual({ text: `éa${String.fromCodePoint(codePoint)}`, encoding: "windows-1252" });
  });
});

describe("CSV as in RFC 4180, section 2", () => {
  const cellsOf = (text: string) =>
    readTable(fileOf("sites", text), tables.sites as Table).rows.map(({ cells }) => Object.values(cells));
  const header = "site_id,name,country\r\n";

  it.each([
    [
      "1: each record on a line, ended by CRLF",
      "aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n",
      [
        ["aaa", "bbb", "ccc"],
        ["zzz", "yyy", "xxx"],
      ],
    ],
    [
      "2: the last line end may be missing",
      "aaa,bbb,ccc\r\nzzz,yyy,xxx",
      [
        ["aaa", "bbb", "ccc"],
        ["zzz", "yyy", "xxx"],
      ],
    ],
    ["4: spaces are part of a cell", "aaa, bbb ,ccc", [["aaa", " bbb ", "ccc"]]],
    [
      "5: cells may be quoted or not",
      '"aaa","bbb","ccc"\r\nzzz,yyy,xxx',
      [
        ["aaa", "bbb", "ccc"],
        ["zzz", "yyy", "xxx"],
      ],
    ],
    [
      "6: line ends and commas within quotes",
      '"aaa","b \r\nbb","c,cc"\r\nzzz,yyy,xxx',
      [
        ["aaa", "b \r\nbb", "c,cc"],
        ["zzz", "yyy", "xxx"],
      ],
    ],
    ["7: a quotation mark within quotes is doubled", '"aaa","b""bb","ccc"', [["aaa", 'b"bb', "ccc"]]],
  ])("rule %s", (_, body, cells) => {
    expect(cellsOf(header + body)).toEqual(cells);
  });
});
