import { readTable } from "../../src/ingest/read-table.js";
import { typeRows } from "../../src/schema/type-rows.js";
import type { BenchCase } from "./case.js";
import { csvTable, csvText } from "./csv.js";

export const readingCases: readonly BenchCase[] = [
  {
    name: "csv20",
    what: "CSV of 20 columns to rows of typed and validated values",
    peer: { name: "R data.table, 1 thread, typed only", size: 100_000 },
    target: 3,
    growth: [10_000, 100_000],
    checked: null,
    prepare: (n) => {
      const bytes = new TextEncoder().encode(csvText(n));
      return () => {
        const { rows } = readTable({ file: "made up", bytes }, csvTable);
        const { typed } = typeRows(rows, csvTable);
        if (typed.length !== n) throw new Error(`csv20: ${n} rows wanted, ${typed.length} typed`);
        return [typed.length];
      };
    },
  },
];
