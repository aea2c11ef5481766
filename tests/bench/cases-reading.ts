import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { piecesOfFile } from "../../src/cli/read-input.js";
import { streamTable } from "../../src/ingest/stream/index.js";
import type { BenchCase } from "./case.js";
import { csvTable } from "./csv.js";

const writer = fileURLToPath(new URL("./write-csv.js", import.meta.url));

/** A file of that many rows, which goes with the process. */
function writtenFile(rows: number): string {
  const folder = mkdtempSync(join(tmpdir(), "pulley-outcomes-bench-"));
  process.on("exit", () => rmSync(folder, { recursive: true }));
  const path = join(folder, "rows.csv");
  const { status, stderr } = spawnSync(process.execPath, [writer, String(rows), path], { encoding: "utf8" });
  if (status !== 0) throw new Error(stderr);
  return path;
}

export const readingCases: readonly BenchCase[] = [
  {
    name: "csv20",
    what: "CSV file of 20 columns as a stream, typed and validated row by row",
    peer: { name: "R data.table, 1 thread, typed only", size: 100_000 },
    target: 3,
    growth: [10_000, 1_000_000],
    checked: null,
    prepare: (n) => {
      const path = writtenFile(n);
      return async () => {
        const { used } = await streamTable(
          { file: "made up", open: () => piecesOfFile(path) },
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
