import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { gridText } from "../../../src/ingest/grid/grid-text.js";
import {
  type Grid,
  readFileAsGrid,
  readGrid,
  readWorkbook,
  shapeSheet,
} from "../../../src/ingest/grid/index.js";
import { type SheetCell, styled, workbookBytes } from "../../behaviour/ingest/workbooks.js";

const seed = 20_240_304;
type Encoding = "utf-8" | "utf-8 with mark" | "utf-16le" | "utf-16be" | "utf-16le with mark" | "windows-1252";

/** Characters that Windows-1252 writes as their own number and that never look like UTF-8. */
const letters = [..."abcXYZ019 .,;|\t\"'=-+äöüéß\n"];
const cell = fc.string({ unit: fc.constantFrom(...letters), maxLength: 8 });
const filled = fc.string({ unit: fc.constantFrom(..."abcXYZ019ä"), minLength: 3, maxLength: 8 });

/** Rows of equal width whose first cell is never blank. */
const rows = fc
  .integer({ min: 2, max: 6 })
  .chain((width) =>
    fc.array(fc.tuple(filled, fc.array(cell, { minLength: width - 1, maxLength: width - 1 })), {
      minLength: 1,
      maxLength: 8,
    }),
  )
  .map((all) => all.map(([first, rest]) => [first, ...rest]));

function bytesOf(text: string, encoding: Encoding): Uint8Array {
  if (encoding === "utf-8") return new TextEncoder().encode(text);
  if (encoding === "utf-8 with mark") return new TextEncoder().encode(`\ufeff${text}`);
  if (encoding === "windows-1252") return Uint8Array.from(text, (letter) => letter.charCodeAt(0));
  const marked = encoding.endsWith("mark") ? `\ufeff${text}` : text;
  return Uint8Array.from(
    [...marked].flatMap((letter) => {
      const [low, high] = [letter.charCodeAt(0) & 255, letter.charCodeAt(0) >> 8];
      return encoding.startsWith("utf-16le") ? [low, high] : [high, low];
    }),
  );
}

const quoted = (text: string) => `"${text.replaceAll('"', '""')}"`;
const written = (table: readonly (readonly string[])[], delimiter: string, lineEnd: string) =>
  table.map((cells) => cells.map(quoted).join(delimiter)).join(lineEnd);

const delimiter = fc.constantFrom(",", ";", "\t", "|");
const lineEnd = fc.constantFrom("\n", "\r\n", "\r");
const encoding = fc.constantFrom<Encoding>(
  "utf-8",
  "utf-8 with mark",
  "utf-16le",
  "utf-16be",
  "utf-16le with mark",
  "windows-1252",
);

describe("delimited text", () => {
  it("any table written with any delimiter, line end and encoding reads back the same", () => {
    fc.assert(
      fc.property(rows, delimiter, lineEnd, encoding, (table, sign, end, code) => {
        const bytes = bytesOf(written(table, sign, end), code);
        const { grid } = readGrid({ file: "a.csv", bytes });
        expect(grid?.rows).toEqual(table.map((cells, place) => ({ row: place + 1, cells, isHidden: false })));
        expect(grid?.format).toMatchObject({ delimiter: sign });
      }),
      { seed, numRuns: 200 },
    );
  });

  it("a line that names the delimiter goes before all evidence", () => {
    fc.assert(
      fc.property(rows, delimiter, (table, sign) => {
        const text = `sep=${sign}\r\n${written(table, sign, "\r\n")}`;
        const { grid } = readGrid({ file: "a.csv", bytes: new TextEncoder().encode(text) });
        expect(grid?.rows.map(({ cells }) => cells)).toEqual(table);
      }),
      { seed, numRuns: 100 },
    );
  });

  it("a grid as text reads back with the same row numbers", () => {
    const numbered = fc
      .tuple(rows, fc.array(fc.integer({ min: 1, max: 5 }), { minLength: 8, maxLength: 8 }))
      .map(([table, gaps]) => {
        let row = 0;
        return table.map((cells, place) => {
          row += gaps[place] ?? 1;
          return { row, cells, isHidden: false };
        });
      });
    fc.assert(
      fc.property(numbered, (all) => {
        const grid: Grid = {
          file: "a.xlsx",
          sheet: "A",
          rows: all,
          hiddenColumns: [],
          merged: [],
          format: { kind: "workbook", dateEpoch: 1900 },
        };
        const bytes = new TextEncoder().encode(`sep=,\n${gridText(grid)}`);
        expect(readGrid({ file: "a.csv", bytes }).grid?.rows).toEqual(all);
      }),
      { seed, numRuns: 100 },
    );
  });

  it("whatever the bytes are, there is a grid or a reason why not, and nothing is thrown", () => {
    const bytes = fc.oneof(
      fc.uint8Array({ maxLength: 300 }),
      fc.string({ unit: "binary", maxLength: 200 }).map((text) => new TextEncoder().encode(text)),
      fc
        .string({ unit: fc.constantFrom(...'",;\n\r\t a1=\0'), maxLength: 200 })
        .map((text) => bytesOf(text, "utf-8")),
    );
    fc.assert(
      fc.property(bytes, (content) => {
        const { grid, queries } = readGrid({ file: "a.csv", bytes: content });
        expect(grid === null).toBe(queries.some(({ severity }) => severity === "stop"));
      }),
      { seed, numRuns: 200 },
    );
  });
});

describe("sheets taken apart", () => {
  it("every row is a record or left out, once", () => {
    fc.assert(
      fc.property(rows, fc.array(fc.nat(12), { maxLength: 8 }), (table, corners) => {
        const { grid } = readGrid({
          file: "a.csv",
          bytes: bytesOf(`sep=,\n${written(table, ",", "\n")}`, "utf-8"),
        });
        const [firstRow = 1, height = 0, firstColumn = 0, width = 0] = corners;
        const merged = [
          { firstRow, lastRow: firstRow + height, firstColumn, lastColumn: firstColumn + width },
        ];
        const shaped = shapeSheet({ ...grid!, merged });
        if (shaped === null) return;
        const all = [...shaped.records, ...shaped.leftOut].map(({ row }) => row);
        expect(all.sort((one, other) => one - other)).toEqual(grid?.rows.map(({ row }) => row));
        const names = shaped.columns.map(({ name }) => name);
        expect(new Set(names).size).toBe(names.length);
      }),
      { seed, numRuns: 200 },
    );
  });
});

describe("workbooks", () => {
  const text = fc.string({
    unit: fc.constantFrom(...letters.filter((letter) => letter !== "\t"), "<", "&", "☂"),
    minLength: 1,
    maxLength: 8,
  });
  const value = fc.oneof(
    { weight: 3, arbitrary: text.map((written): [SheetCell, string] => [written, written]) },
    fc
      .integer({ min: -9_999, max: 99_999 })
      .map((number): [SheetCell, string] => [number / 100, String(number / 100)]),
    fc
      .integer({ min: 61, max: 60_000 })
      .map((serial): [SheetCell, string] => [
        styled(serial, 1),
        new Date((serial - 25_569) * 86_400_000).toISOString().slice(0, 10),
      ]),
    fc.constant<[SheetCell, string]>([null, ""]),
  );

  it("any cells that are written read back as text", async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.array(value, { minLength: 1, maxLength: 5 }), { minLength: 1, maxLength: 6 }),
        async (table) => {
          const sheet = { name: "A", rows: table.map((cells) => [...cells.map(([made]) => made), "end"]) };
          const bytes = workbookBytes({ sheets: [sheet], formats: ["dd.mm.yyyy"] });
          const { grid } = await readFileAsGrid({ file: "a.xlsx", bytes });
          const width = Math.max(...table.map((cells) => cells.length)) + 1;
          const expected = table.map((cells) => {
            const texts = [...cells.map(([, shown]) => shown), "end"];
            return [...texts, ...Array.from({ length: width - texts.length }, () => "")];
          });
          expect(grid?.rows.map(({ cells }) => cells)).toEqual(expected);
        },
      ),
      { seed, numRuns: 60 },
    );
  });

  it("whatever bytes of one are changed, there is a grid or a reason why not, and nothing is thrown", async () => {
    const rowsOfOne = [
      ["Who", "When"],
      ["P1", styled(45_355, 1)],
    ];
    const whole = workbookBytes({ sheets: [{ name: "A", rows: rowsOfOne }], formats: ["dd.mm.yyyy"] });
    const changes = fc.array(fc.tuple(fc.nat(whole.length - 1), fc.nat(255)), { minLength: 1, maxLength: 6 });
    await fc.assert(
      fc.asyncProperty(changes, async (all) => {
        const bytes = whole.slice();
        for (const [place, byte] of all) bytes[place] = byte;
        const { grid, queries } = await readWorkbook({ file: "a.xlsx", bytes });
        expect(grid === null).toBe(queries.some(({ severity }) => severity === "stop"));
      }),
      { seed, numRuns: 200 },
    );
  });
});
