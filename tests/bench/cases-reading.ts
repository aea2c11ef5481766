import { streamTable } from "../../src/ingest/stream/index.js";
import type { BenchCase } from "./case.js";
import { csvTable, csvText } from "./csv.js";

/** Bytes as a file gives them. */
async function* piecesOf(bytes: Uint8Array): AsyncGenerator<Uint8Array> {
  const size = 65_536;
  for (let from = 0; from < bytes.length; from += size) yield bytes.subarray(from, from + size);
}

export const readingCases: readonly BenchCase[] = [
  {
    name: "csv20",
    what: "CSV of 20 columns as a stream, typed and validated row by row",
    peer: { name: "R data.table, 1 thread, typed only", size: 100_000 },
    target: 3,
    growth: [10_000, 1_000_000],
    checked: null,
    prepare: (n) => {
      const bytes = new TextEncoder().encode(csvText(n));
      return async () => {
        const { used } = await streamTable(
          { file: "made up", open: () => piecesOf(bytes) },
          {
            table: csvTable,
            rules: [],
            context: { closedOn: null, dateOrder: "year-first" },
            onRow: () => undefined,
          },
        );
        if (used !== n) throw new Error(`csv20: ${n} rows wanted, ${used} used`);
        return [used];
      };
    },
  },
];
