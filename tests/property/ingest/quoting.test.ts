import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readGrid } from "../../../src/ingest/grid/index.js";
import { readTable } from "../../../src/ingest/index.js";
import { streamTable } from "../../../src/ingest/stream/index.js";
import { type DataQuery, type Table, tables } from "../../../src/schema/index.js";
import { readSecond } from "../../second-csv-reader.js";

const seed = 20_261_127;
const table = tables.sites as Table;
const columns = ["site_id", "name", "who_is_scanned"];
const header = columns.join(",");
const encoder = new TextEncoder();

/** Pieces of text that readers of CSV fall over, put together without care. */
const piece = fc.constantFrom(
  ...['"', '""', '"""', '","', '",', ',"', ' "', '" ', "a", "b c", ",", ",,", "\n", "\r\n", "\r", "\n\n"],
  ...['"a\nb"', '"a,b"', '"say ""ah"""', '5" x 3"', ' "a, b"', "x".repeat(300), '""""""""', "é☂", " "],
);
const nasty = fc.array(piece, { maxLength: 24 }).map((pieces) => `${header}\n${pieces.join("")}`);

const isStop = ({ severity }: DataQuery): boolean => severity === "stop";
const filled = (cells: readonly string[]): boolean => cells.some((cell) => cell.trim() !== "");

/** Filled rows below the header by the second reader, with their numbers; or the row in which quoting is broken. */
function second(text: string) {
  const reading = readSecond(text, ",");
  if ("brokenInRow" in reading) return reading;
  const rows = reading.rows.map((cells, place) => ({ row: place + 1, cells })).slice(1);
  return { rows: rows.filter(({ cells }) => filled(cells)) };
}

const openerOf = (bytes: Uint8Array, size: number) =>
  async function* () {
    for (let from = 0; from < bytes.length; from += size) yield bytes.subarray(from, from + size);
  };

describe("rows of a text with nasty quoting, held against a second reader", () => {
  it("are the same rows and cells, or the file is refused in the same row", () => {
    let refused = 0;
    let read = 0;
    fc.assert(
      fc.property(nasty, (text) => {
        const expected = second(text);
        const found = readTable({ file: "sites.csv", bytes: encoder.encode(text) }, table);
        if ("brokenInRow" in expected) {
          refused += 1;
          const stops = found.queries.filter(isStop);
          expect(stops).toMatchObject([{ code: "unbalanced-quote", row: expected.brokenInRow }]);
          return;
        }
        read += 1;
        expect(found.read).toBe(expected.rows.length);
        const rows = [...found.rows, ...found.setAside]
          .map(({ row }) => row)
          .sort((one, other) => one - other);
        expect(rows).toEqual(expected.rows.map(({ row }) => row));
        const cellsIn = new Map(expected.rows.map(({ row, cells }) => [row, cells]));
        for (const { row, cells } of found.rows)
          expect(columns.map((name) => cells[name])).toEqual(
            columns.map((_, place) => cellsIn.get(row)![place] ?? ""),
          );
      }),
      { seed, numRuns: 1_500 },
    );
    // both outcomes must have been met often
    expect(Math.min(refused, read)).toBeGreaterThan(100);
  });

  it("are counted alike by the stream, wherever its pieces end", async () => {
    await fc.assert(
      fc.asyncProperty(nasty, fc.constantFrom(1, 2, 7, 60), async (text, size) => {
        const expected = second(text);
        const bytes = encoder.encode(text);
        const { read, queries } = await streamTable<never>(
          { file: "sites.csv", open: openerOf(bytes, size) },
          {
            table: table as Table<never>,
            rules: [],
            context: { closedOn: null, dateOrder: "year-first" },
            onRow: () => undefined,
          },
        );
        if ("brokenInRow" in expected)
          expect(queries.filter(isStop)).toMatchObject([
            { code: "unbalanced-quote", row: expected.brokenInRow },
          ]);
        else expect(read).toBe(expected.rows.length);
      }),
      { seed, numRuns: 500 },
    );
  });

  it("are the rows of the grid as well, by the delimiter that it took", () => {
    fc.assert(
      fc.property(nasty, (text) => {
        const { grid, queries } = readGrid({ file: "any.csv", bytes: encoder.encode(text) });
        if (grid === null) {
          expect(queries.filter(isStop)).toMatchObject([{ code: "unbalanced-quote" }]);
          return;
        }
        if (grid.format.kind !== "delimited") throw new Error("no delimited text");
        const reading = readSecond(text, grid.format.delimiter);
        if ("brokenInRow" in reading) throw new Error(`not refused: row ${reading.brokenInRow}`);
        const rows = reading.rows.map((cells, place) => ({ row: place + 1, cells }));
        expect(grid.rows.map(({ row, cells }) => ({ row, cells }))).toEqual(
          rows.filter(({ cells }) => filled(cells)),
        );
      }),
      { seed, numRuns: 500 },
    );
  });
});

describe("a cell of very many quotation marks", () => {
  const rowOf = (place: number, name: string) => `S${place},${name},x`;
  const sheetWith = (cell: string): Uint8Array =>
    encoder.encode(
      [header, ...Array.from({ length: 30 }, (_, at) => rowOf(at, at === 12 ? cell : "A"))].join("\n"),
    );

  /** An even number closes itself and an odd one does not; either way block ends fall anywhere within the run. */
  const lengths = [999_998, 1_000_001, 1_000_002, 1_999_963, 2_500_000, 2_500_001, 3_000_003];
  it.each(lengths)("%i of them: 30 rows, or refused in row 14", (marks) => {
    for (const cell of ['"'.repeat(marks), `x${'"'.repeat(marks)}`]) {
      const { read, queries } = readTable({ file: "sites.csv", bytes: sheetWith(cell) }, table);
      const stops = queries.filter(isStop);
      if (stops.length === 0) expect(read).toBe(30);
      else expect([read, stops[0]!.code, stops[0]!.row]).toEqual([0, "unbalanced-quote", 14]);
      // marks within a cell that does not begin with one are letters
      if (cell.startsWith("x")) expect(stops).toEqual([]);
    }
  });
});
