import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readTable } from "../../../src/ingest/index.js";
import { rowNamer, type StreamedRow, streamTable } from "../../../src/ingest/stream/index.js";
import { checkRows } from "../../../src/ingest/table/check-rows.js";
import {
  csvText,
  queryList,
  rowRules,
  type Table,
  type TypedRow,
  tables,
} from "../../../src/schema/index.js";
import { plainRows } from "../../behaviour/ingest/sheets.js";

const seed = 20_240_304;
const context = { closedOn: null, dateOrder: "year-first" } as const;
const columns = tables.injuries.fields.map(({ name }) => name);

/** Bytes in pieces that end anywhere, also within a character. */
const openerOf = (bytes: Uint8Array, size: number) =>
  async function* () {
    for (let from = 0; from < bytes.length; from += size) yield bytes.subarray(from, from + size);
  };

const cell = fc.oneof(
  fc.constantFrom(
    "",
    "3",
    "IV",
    "ring",
    "P1",
    "2024-03-04",
    'say "ah"',
    "two\nlines",
    "a,b",
    "Zürich ☂",
    "\r\n",
    "=1+1",
  ),
  fc.string({ maxLength: 6, unit: "grapheme" }),
);
const row = fc
  .record({
    injury_id: fc.constantFrom("P1-1", "P1-2", "P2-1", "P3-1", "P4-1"),
    change: fc.dictionary(fc.constantFrom(...columns), cell, { maxKeys: 3 }),
  })
  .map(
    ({ injury_id, change }): Readonly<Record<string, string>> => ({
      ...plainRows.injuries,
      injury_id,
      ...change,
    }),
  );
const sheet = fc
  .record({
    rows: fc.array(row, { maxLength: 12 }),
    lineEnd: fc.constantFrom("\n", "\r\n"),
    mark: fc.constantFrom("", "\ufeff"),
    spoilt: fc.constantFrom("", "", "", 'x"', '"open', ",,,,\n", "\0"),
  })
  .map(({ rows, lineEnd, mark, spoilt }) => {
    const text = csvText(
      columns,
      rows.map((cells) => columns.map((column) => cells[column] ?? "")),
    );
    return new TextEncoder().encode(mark + text.replaceAll("\r\n", lineEnd) + spoilt);
  });

/** The same file read whole: the rows that are used and how many were read. */
function readWhole(bytes: Uint8Array) {
  const queries = queryList();
  const read = readTable({ file: "i.csv", bytes }, tables.injuries as Table);
  const options = { table: tables.injuries, rules: rowRules.injuries, context, queries };
  const { rows, ledger } = checkRows({ file: "i.csv", read }, options);
  return { read: ledger.read, setAside: ledger.setAside.size, rows, stops: stopsOf(queries.all()) };
}

const stopsOf = (
  queries: readonly { readonly code: string; readonly severity: string; readonly row: number | null }[],
) => queries.filter(({ severity }) => severity === "stop").map(({ code, row: at }) => `${code} ${at}`);

async function readAsStream(bytes: Uint8Array, size: number) {
  const handedOver: TypedRow<unknown>[] = [];
  const named = rowNamer(tables.injuries);
  const onRow = ({ row, values }: StreamedRow) =>
    handedOver.push({ file: "i.csv", row, values: named(values) });
  const streamed = await streamTable(
    { file: "i.csv", open: openerOf(bytes, size) },
    { table: tables.injuries, rules: rowRules.injuries, context, onRow },
  );
  const stops = stopsOf(streamed.queries);
  const rows = stops.length > 0 ? [] : handedOver.filter(({ row: at }) => !streamed.withdrawn.has(at));
  return { ...streamed, rows, stops };
}

describe("a table read as a stream", () => {
  it("gives the rows, the counts and the refusals of the whole file, wherever the pieces end", async () => {
    await fc.assert(
      fc.asyncProperty(sheet, fc.integer({ min: 1, max: 400 }), async (bytes, size) => {
        const whole = readWhole(bytes);
        const streamed = await readAsStream(bytes, size);
        expect(streamed.stops).toEqual(whole.stops);
        expect(streamed.rows).toEqual(whole.rows);
        expect([streamed.read, streamed.setAside]).toEqual([whole.read, whole.setAside]);
        expect([...streamed.reasons.values()].reduce((sum, count) => sum + count, 0)).toBe(streamed.setAside);
      }),
      { seed, numRuns: 300 },
    );
  });

  it("Windows-1252 shows at the last byte only, and the file is read by it from its start", async () => {
    const text = `${columns.join(",")}\n${columns.map((name) => ({ ...plainRows.injuries, site_id: "Zurich" })[name as "grade"] ?? "").join(",")}`;
    const bytes = new Uint8Array([...new TextEncoder().encode(text), 0xe9]);
    const { queries, read } = await readAsStream(bytes, 7);
    expect(read).toBe(1);
    expect(queries.map(({ code }) => code)).toContain("file-not-utf8");
  });

  it("a quotation mark that never closes ends the reading with its row, not with the memory", async () => {
    const head = `${columns.join(",")}\n`;
    const open = async function* () {
      yield new TextEncoder().encode(`${head}"`);
      for (let piece = 0; piece < 40; piece++) yield new TextEncoder().encode("a\n".repeat(50_000));
    };
    const streamed = await streamTable(
      { file: "i.csv", open },
      { table: tables.injuries, rules: [], context, onRow: () => undefined },
    );
    expect(streamed).toMatchObject({ read: 0, used: 0, queries: [{ code: "unbalanced-quote", row: 2 }] });
  });
});
