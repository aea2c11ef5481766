import { strToU8 } from "fflate";
import type { TableName } from "../../src/schema/index.js";
import type { Generator } from "../../src/statistics/shared/random.js";
import { awkwardCells } from "./awkward-cells.js";
import { soundCells, soundText } from "./valid-files.js";
import { sheetXml, workbookParts, zipped } from "./workbooks.js";

/** A way to make a malformed file. */
export interface Kind {
  readonly name: string;
  /** Among how many files one is of this kind, roughly: the dear ones come seldom. */
  readonly weight: number;
  readonly make: (draw: Generator) => { readonly table: TableName; readonly bytes: Uint8Array };
}

const tableNames: readonly TableName[] = [
  "single_sheet",
  "injuries",
  "treatments",
  "imaging",
  "visits",
  "sites",
];
export const oneOf = <T>(draw: Generator, from: readonly T[]): T => from[draw.integer(from.length)] as T;
const encoder = new TextEncoder();
const bytesOf = (text: string): Uint8Array => encoder.encode(text);
const randomBytes = (draw: Generator, length: number): Uint8Array =>
  Uint8Array.from({ length }, () => draw.integer(256));

/** Some of the bytes changed, left out, doubled or cut off. */
export function spoiltBytes(sound: Uint8Array, draw: Generator): Uint8Array {
  const bytes = [...sound];
  for (let slip = draw.integer(8); slip >= 0; slip--) {
    const at = draw.integer(bytes.length + 1);
    const how = draw.integer(4);
    if (how === 0) bytes[Math.min(at, bytes.length - 1)] = draw.integer(256);
    else if (how === 1) bytes.splice(at, 1 + draw.integer(20));
    else if (how === 2) bytes.splice(at, 0, ...bytes.slice(at, at + draw.integer(40)));
    else
      bytes.splice(
        at,
        0,
        ...oneOf(draw, [[34], [10], [13], [44], [59], [0], [0xff], [0xef, 0xbb, 0xbf], [0xc3]]),
      );
  }
  return Uint8Array.from(bytes.slice(0, draw.integer(10) === 0 ? draw.integer(bytes.length + 1) : undefined));
}

/** Some cells, and now and then column names, in place of the sound ones. */
function spoiltCells(table: TableName, draw: Generator): string[][] {
  const cells = soundCells(table).map((row) => [...row]);
  for (let slip = draw.integer(6); slip >= 0; slip--) {
    const row = oneOf(draw, cells);
    const awkward = oneOf(draw, awkwardCells);
    if (draw.integer(6) === 0) row.splice(draw.integer(row.length + 1), 0, awkward);
    else row[draw.integer(row.length + 1)] = awkward;
  }
  return cells;
}

const quotedIfNeeded = (cell: string, draw: Generator): string =>
  draw.integer(12) === 0 ? cell : /[",;\n\r\t|]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell;

function textOf(cells: readonly (readonly string[])[], draw: Generator): string {
  const [delimiter, lineEnd] = [
    oneOf(draw, [",", ";", "\t", "|"]),
    oneOf(draw, ["\n", "\r\n", "\r", "\n\n"]),
  ];
  return cells.map((row) => row.map((cell) => quotedIfNeeded(cell, draw)).join(delimiter)).join(lineEnd);
}

const archiveOf = (sheet: string, more: Record<string, Uint8Array> = {}): Uint8Array =>
  zipped({ ...workbookParts(sheet), ...more });
const sheet = { table: "single_sheet" } as const;

/** An entry that says it is small, or huge, whatever it holds: sizes in the directory of the archive overwritten. */
function withFalseSizes(archive: Uint8Array, size: number): Uint8Array {
  const bytes = archive.slice();
  const view = new DataView(bytes.buffer);
  for (let at = 0; at + 46 < bytes.length; at++) {
    if (view.getUint32(at, true) === 0x02014b50) view.setUint32(at + 24, size, true);
    if (view.getUint32(at, true) === 0x04034b50) view.setUint32(at + 22, size, true);
  }
  return bytes;
}

const entityBomb = `<?xml version="1.0"?><!DOCTYPE x [<!ENTITY a "aaaaaaaaaa">${"bcdefgh"
  .split("")
  .map((name, place) => `<!ENTITY ${name} "${`&${"abcdefg"[place]};`.repeat(10)}">`)
  .join(
    "",
  )}]><worksheet><sheetData><row><c t="inlineStr"><is><t>&h;</t></is></c></row></sheetData></worksheet>`;

export const kinds: readonly Kind[] = [
  { name: "bytes of a sound table spoilt", weight: 30_000, make: (draw) => spoiltFrom(draw) },
  {
    name: "awkward cells in a sound table",
    weight: 40_000,
    make: (draw) => {
      const table = oneOf(draw, tableNames);
      return { table, bytes: bytesOf(textOf(spoiltCells(table, draw), draw)) };
    },
  },
  {
    name: "lone surrogates and other encodings",
    weight: 6_000,
    make: (draw) => {
      const text = `${draw.integer(2) === 0 ? "\ufeff" : ""}${textOf(spoiltCells("single_sheet", draw), draw)}`;
      const [low, high] = draw.integer(2) === 0 ? [0, 1] : [1, 0];
      const bytes = new Uint8Array(text.length * 2);
      for (let at = 0; at < text.length; at++) {
        bytes[at * 2 + low] = text.charCodeAt(at) & 255;
        bytes[at * 2 + high] = text.charCodeAt(at) >> 8;
      }
      return { ...sheet, bytes: draw.integer(9) === 0 ? bytes.slice(0, -1) : bytes };
    },
  },
  {
    name: "random bytes",
    weight: 8_000,
    make: (draw) => ({ table: oneOf(draw, tableNames), bytes: randomBytes(draw, draw.integer(3_000)) }),
  },
  {
    name: "quotation marks in depth",
    weight: 4_000,
    make: (draw) => {
      const marks = oneOf(draw, ['"', '""', '"""', '","', '"\n"', '";"']).repeat(1 + draw.integer(3_000));
      return {
        ...sheet,
        bytes: bytesOf(`${soundText("single_sheet")}${marks}${draw.integer(2) === 0 ? "\n" : ""}`),
      };
    },
  },
  {
    name: "workbook of awkward cells",
    weight: 8_000,
    make: (draw) => ({ ...sheet, bytes: archiveOf(sheetXml(spoiltCells("single_sheet", draw))) }),
  },
  {
    name: "workbook spoilt",
    weight: 3_600,
    make: (draw) => ({ ...sheet, bytes: spoiltBytes(archiveOf(sheetXml(soundCells("single_sheet"))), draw) }),
  },
  {
    name: "XML of a workbook spoilt",
    weight: 300,
    make: (draw) => {
      const parts = workbookParts(sheetXml(soundCells("single_sheet")));
      const name = oneOf(draw, Object.keys(parts));
      return { ...sheet, bytes: zipped({ ...parts, [name]: spoiltBytes(parts[name]!, draw) }) };
    },
  },
  { name: "entity bomb", weight: 30, make: () => ({ ...sheet, bytes: archiveOf(entityBomb) }) },
  {
    name: "path-like and doubled parts",
    weight: 30,
    make: (draw) => ({
      ...sheet,
      bytes: archiveOf(sheetXml(soundCells("single_sheet")), {
        [oneOf(draw, ["../../x.xml", "/etc/x", "C:\\x", "XL/WORKBOOK.XML", "toString", "xl/../../y.xml"])]:
          strToU8("<x/>"),
      }),
    }),
  },
  {
    name: "false sizes",
    weight: 20,
    make: (draw) => ({
      ...sheet,
      bytes: withFalseSizes(
        archiveOf(sheetXml(soundCells("single_sheet"))),
        oneOf(draw, [0, 1, 1_073_741_824, 0xffffffff]),
      ),
    }),
  },
  {
    name: "zip bomb",
    weight: 1,
    make: (draw) => ({
      ...sheet,
      bytes: withFalseSizes(
        archiveOf(`${sheetXml(soundCells("single_sheet"))}${" ".repeat(220_000_000)}`),
        oneOf(draw, [100, 220_000_000]),
      ),
    }),
  },
  {
    name: "cell far away",
    weight: 20,
    make: (draw) => {
      const far = oneOf(draw, ["XFD1048576", "ZZZZ99999999", "A99999999999", "1A", "__proto__1"]);
      const xml = sheetXml(soundCells("single_sheet")).replace("<c t=", `<c r="${far}" t=`);
      return { ...sheet, bytes: archiveOf(xml) };
    },
  },
  {
    name: "header of a million columns",
    weight: 1,
    make: (draw) => {
      const columns = Array.from({ length: 1_000_000 }, (_, place) =>
        draw.integer(2) === 0 ? `c${place}` : "",
      );
      return { ...sheet, bytes: bytesOf(`${columns.join(",")}\n1,2,3\n`) };
    },
  },
  {
    name: "cell that never ends",
    weight: 1,
    make: () => ({ ...sheet, bytes: bytesOf(`${soundText("single_sheet")}"${"x\n".repeat(20_000_000)}`) }),
  },
  {
    name: "huge quoted cell",
    weight: 30,
    make: (draw) => {
      const rows = soundText("single_sheet").trimEnd().split("\n");
      const marks = oneOf(draw, ['"', '""', "x", "\n", '"\n']).repeat(
        oneOf(draw, [1_000, 400_000, 1_300_000]),
      );
      const cell = draw.integer(2) === 0 ? `"${marks}"` : `${oneOf(draw, ["", "x", " "])}${marks}`;
      const place = 1 + draw.integer(rows.length);
      return { ...sheet, bytes: bytesOf([...rows.slice(0, place), cell, ...rows.slice(place)].join("\n")) };
    },
  },
  {
    name: "our columns behind many others",
    weight: 20,
    make: (draw) => {
      const others = oneOf(draw, [900, 5_000, 20_000]);
      const cells = soundCells("single_sheet").map((row, place) => [
        ...Array.from({ length: others }, (_, column) => (place === 0 ? `other ${column}` : "")),
        ...row,
      ]);
      return { ...sheet, bytes: bytesOf(textOf(cells, draw)) };
    },
  },
  {
    name: "broken quoting",
    weight: 6_000,
    make: (draw) => {
      const pieces = [
        '"',
        '""',
        '"""',
        '","',
        '",',
        ',"',
        ' "',
        '" ',
        "a",
        ",",
        "\n",
        "\r\n",
        "\r",
        '"a\nb"',
      ];
      const tail = Array.from({ length: draw.integer(60) }, () => oneOf(draw, pieces)).join("");
      return { ...sheet, bytes: bytesOf(`${soundText("single_sheet").trimEnd()}\n${tail}`) };
    },
  },
  {
    name: "rows without end",
    weight: 1,
    make: (draw) => ({
      ...sheet,
      bytes: bytesOf(
        `${soundText("single_sheet")}${oneOf(draw, ["P01,x\n", ",,,,\n", "\n", "1\n", '""\n'])}`.repeat(
          3_000,
        ),
      ),
    }),
  },
];

function spoiltFrom(draw: Generator): { readonly table: TableName; readonly bytes: Uint8Array } {
  const table = oneOf(draw, tableNames);
  return { table, bytes: spoiltBytes(bytesOf(soundText(table)), draw) };
}

/** The kind of a draw, by weight. */
export function drawnKind(draw: Generator): Kind {
  let left = draw.integer(kinds.reduce((sum, { weight }) => sum + weight, 0));
  return kinds.find(({ weight }) => {
    left -= weight;
    return left < 0;
  })!;
}
